#include "report/text/lens_words.h"

#include "plan/comparing/carried_lens.h"

#include <fmt/format.h>

namespace backrow::report {
namespace {

// As its profile says; which files there are, only scene_file knows.
constexpr double typical_opens_to = 1.4;

}  // namespace

std::optional<std::string> perfect_lens_sentence(const scene::Scene& scene) {
    if (!plan::trusts_perfect_lens(scene))
        return std::nullopt;
    return fmt::format("Reckoned with a perfect lens; few are so at f/{:g}: try --set "
                       "lens.profile=typical-fast-prime{}",
                       scene.camera.f_number,
                       scene.camera.f_number < typical_opens_to
                           ? fmt::format(" --set camera.f_number={:g}", typical_opens_to)
                           : "");
}

std::string perfect_lens_words(const scene::Scene& scene) {
    return plan::trusts_perfect_lens(scene)
               ? fmt::format("reckoned with a perfect lens, and few are so at f/{:g}",
                             scene.camera.f_number)
               : std::string{};
}

std::string perfect_lens_note(const scene::Scene& scene, double widest_f_number) {
    return plan::trusts_perfect_lens(scene, widest_f_number)
               ? fmt::format("Reckoned with a perfect lens; few are so at f/{:g}.", widest_f_number)
               : std::string{};
}

std::string perfect_lens_line(const std::optional<std::string>& sentence) {
    return sentence ? *sentence + '\n' : std::string{};
}

}  // namespace backrow::report
