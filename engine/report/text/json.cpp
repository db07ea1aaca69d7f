#include "report/text/json.h"

namespace backrow::report {

std::string json_text(const Json& json) {
    constexpr int indent = 2;
    return json.dump(indent, ' ', false, Json::error_handler_t::replace) + '\n';
}

}  // namespace backrow::report
