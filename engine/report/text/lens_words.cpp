#include "report/text/lens_words.h"

#include "plan/comparing/carried_lens.h"

#include <fmt/format.h>

namespace backrow::report {

std::optional<std::string> perfect_lens_sentence(const scene::Scene& scene) {
    if (!plan::trusts_perfect_lens(scene))
        return std::nullopt;
    return fmt::format("Reckoned with a perfect lens; few are so at f/{:g}: try --set "
                       "lens.profile=typical-fast-prime",
                       scene.camera.f_number);
}

std::string perfect_lens_line(const std::optional<std::string>& sentence) {
    return sentence ? *sentence + '\n' : std::string{};
}

}  // namespace backrow::report
