#include "delivery/not_made.h"

namespace backrow::delivery {

NotMade not_made(const render::Unfinished& why) {
    return std::visit([](const auto& reason) { return NotMade{reason}; }, why);
}

NotMade not_made(const std::vector<Problem>& problems) {
    return problems.front();
}

std::string to_line(const NotMade& why) {
    if (const auto* problem = std::get_if<Problem>(&why))
        return backrow::to_line(*problem);
    const auto* failure = std::get_if<MachineFailure>(&why);
    return failure != nullptr ? backrow::to_line(*failure) : std::string{};
}

}  // namespace backrow::delivery
