#include "report/text/csv.h"

#include <fmt/format.h>

#include <cmath>

namespace backrow::report {
namespace {

std::string quoted_if_needed(const std::string& field) {
    if (field.find_first_of(",\"\r\n") == std::string::npos)
        return field;
    std::string quoted = "\"";
    for (const char c : field) {
        if (c == '"')
            quoted += '"';
        quoted += c;
    }
    return quoted + '"';
}

}  // namespace

std::string csv_record(const std::vector<std::string>& fields) {
    std::string record;
    for (const std::string& field : fields) {
        if (&field != &fields.front())
            record += ',';
        record += quoted_if_needed(field);
    }
    return record + "\r\n";
}

std::string number_field(std::optional<double> number) {
    return number && std::isfinite(*number) ? fmt::format("{}", *number) : std::string{};
}

}  // namespace backrow::report
