#include "lens_argument.h"

#include "scene/limits.h"
#include "scene_file/reading/lens_profile_file.h"

#include "base/spelt_number.h"

#include <fmt/format.h>

#include <cctype>
#include <filesystem>

using namespace backrow;

namespace {

struct LensWord {
    double focal_length_mm = 0;
    std::optional<double> widest_f_number{};
    std::string profile{};
};

bool read_within(const std::string& word, scene::Range<double> range, Measure measure,
                 double& into) {
    const auto number = number_from_spelling(word, measure);
    if (!number || *number < range.least || *number > range.greatest)
        return false;
    into = *number;
    return true;
}

/// "85", "85/1.8", "85mm f/1,8", "85/1.8,lenses/soft.toml".
std::optional<LensWord> lens_word(const std::string& text) {
    LensWord word;
    auto comma = text.find(',');
    // A comma before a digit is the f-number's own.
    while (comma != std::string::npos && comma + 1 < text.size() &&
           std::isdigit(static_cast<unsigned char>(text[comma + 1])) != 0)
        comma = text.find(',', comma + 1);
    if (comma != std::string::npos)
        word.profile = text.substr(comma + 1);
    const std::string numbers = text.substr(0, comma);
    const auto stroke = numbers.find_first_of("/fF");
    if (!read_within(numbers.substr(0, stroke), scene::limits::focal_length_mm,
                     Measure::millimetres, word.focal_length_mm) ||
        (comma != std::string::npos && word.profile.empty()))
        return std::nullopt;
    if (stroke == std::string::npos)
        return word.profile.empty() ? std::optional{word} : std::nullopt;
    if (!read_within(numbers.substr(stroke + (numbers[stroke] == '/' ? 1 : 0)),
                     scene::limits::f_number, Measure::f_number, word.widest_f_number.emplace()))
        return std::nullopt;
    return word;
}

/// A file that is named from here, as a scene elsewhere names it: from its own folder where it lies
/// there or below, else in full.
std::string named_beside(const std::string& scene_file, const std::string& file) {
    namespace fs = std::filesystem;
    const fs::path folder = fs::absolute(scene_file).lexically_normal().parent_path();
    const fs::path whole = fs::absolute(file).lexically_normal();
    const fs::path beside = whole.lexically_relative(folder);
    return (beside.empty() || *beside.begin() == ".." ? whole : beside).string();
}

}  // namespace

void LensArguments::add_to(CLI::App& verb, const char* description, bool widest_optional) {
    verb.add_option("--lens", words, description)
        ->type_name(widest_optional ? "MM[/F[,PROFILE]]" : "MM/F[,PROFILE]")
        ->allow_extra_args(false)
        ->check([widest_optional](const std::string& text) {
            const auto word = lens_word(text);
            return word && (widest_optional || word->widest_f_number)
                       ? std::string{}
                       : '`' + text + "` is not a lens; write it as in 85/1.8";
        });
}

Checked<std::vector<plan::CarriedLens>> LensArguments::read(const std::string& scene_file) const {
    std::vector<plan::CarriedLens> lenses;
    std::vector<Problem> problems;
    for (const std::string& text : words) {
        const LensWord word = *lens_word(text);
        plan::CarriedLens lens{.focal_length_mm = word.focal_length_mm,
                               .widest_f_number = word.widest_f_number.value_or(0)};
        if (!word.profile.empty()) {
            const auto read = scene_file::read_named_lens(word.profile, "");
            if (!read) {
                problems.insert(problems.end(), read.error().begin(), read.error().end());
                continue;
            }
            lens.profile = read->profile;
            lens.profile_file = scene_file::names_own_lens(word.profile)
                                    ? word.profile
                                    : named_beside(scene_file, word.profile);
            if (lens.widest_f_number < read->profile.widest_f_number)
                problems.push_back(
                    {.where = {.file = word.profile},
                     .what = fmt::format("--lens {} opens further than the profile, which starts "
                                         "at f/{:g}",
                                         text, read->profile.widest_f_number),
                     .mend = fmt::format("write {:g}/{:g}", word.focal_length_mm,
                                         read->profile.widest_f_number)});
        }
        lenses.push_back(std::move(lens));
    }
    if (!problems.empty())
        return tl::make_unexpected(std::move(problems));
    return lenses;
}
