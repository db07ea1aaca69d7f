#include "scene_file/editing/write_lens_profile.h"

#include "scene/set_words.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <string_view>

namespace backrow::scene_file {

std::string lens_profile_toml(const NamedLensProfile& lens,
                              const std::map<std::string, std::string>& comments) {
    std::string text;
    const auto line = [&](const std::string& key, const std::string& value) {
        const auto comment = comments.find(key);
        text += fmt::format("{:<23} = {}{}\n", key, value,
                            comment == comments.end() ? "" : "  # " + comment->second);
    };
    const auto number = [&](const std::string& key, double value) {
        if (value != 0)
            line(key, fmt::format("{:.6g}", value));
    };
    if (!lens.title.empty())
        line("title", scene::toml_string(lens.title));
    if (!lens.origin.empty())
        line("origin", scene::toml_string(lens.origin));
    if (!lens.date.empty())
        line("date", lens.date);
    const optics::LensProfile& profile = lens.profile;
    number("focal_length_mm", profile.focal_length_mm);
    number("widest_f_number", profile.widest_f_number);
    number("smallest_f_number", profile.smallest_f_number);
    number("spherical_dpt", profile.spherical_dpt);
    number("field_curvature_dpt", profile.field_curvature_dpt);
    number("astigmatism_dpt", profile.astigmatism_dpt);
    number("coma_dpt", profile.coma_dpt);
    if (profile.longitudinal_colour_dpt != optics::LensProfile{}.longitudinal_colour_dpt)
        line("longitudinal_colour_dpt",
             fmt::format("[{:.6g}]", fmt::join(profile.longitudinal_colour_dpt, ", ")));
    number("vignetting", profile.vignetting);
    number("natural_falloff", profile.natural_falloff);
    number("focus_offset_dpt", profile.focus_offset_dpt);
    if (profile.blades > 0)
        line("blades", fmt::format("{}", profile.blades));
    number("roundness", profile.roundness);
    if (!lens.database.empty())
        line("database", scene::toml_string(lens.database));
    if (!lens.measured.empty())
        number("measured_pixel_mm", lens.measured_pixel_mm);
    for (const MeasuredSharpness& one : lens.measured)
        text += fmt::format("\n[[measured]]\nf_number        = {:g}\nimage_height    = {:.3f}\n"
                            "mtf50_cy_per_mm = {:.2f}\n",
                            one.f_number, one.image_height, one.mtf50_cy_per_mm);
    return text;
}

}  // namespace backrow::scene_file
