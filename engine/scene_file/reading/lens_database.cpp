#include "scene_file/reading/lens_database.h"

#include "optics/fitting/profile_fit.h"

#include "base/last_answers.h"

#include <fmt/format.h>

#ifdef BACKROW_WITH_LENSFUN
#include <lensfun/lensfun.h>
#endif

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <memory>

namespace backrow::scene_file {

#ifdef BACKROW_WITH_LENSFUN

namespace {

using Database = std::unique_ptr<lfDatabase, decltype(&lf_db_destroy)>;

Database opened() {
    Database database{lf_db_new(), lf_db_destroy};
    if (database && lf_db_load(database.get()) != LF_NO_ERROR)
        database.reset();
    return database;
}

std::string word_of(const char* text) {
    return text == nullptr ? std::string{} : text;
}

std::string name_of(const lfLens& lens) {
    return word_of(lf_mlstr_get(lens.Maker)) + ' ' + word_of(lf_mlstr_get(lens.Model));
}

bool is_full_frame(const lfLens& lens) {
    return std::abs(lens.CropFactor - 1) < 0.1;
}

/// What the database tells of the light at one aperture, from as far away as it has it, at places
/// from the middle to the corner: a share of 1 + k₁r² + k₂r⁴ + k₃r⁶ is left.
void add_light(const lfLens& lens, float focal_length_mm, float f_number,
               std::vector<optics::MeasuredLight>& all) {
    lfLensCalibVignetting found;
    constexpr float far_m = 1000;
    if (!lf_lens_interpolate_vignetting(&lens, focal_length_mm, f_number, far_m, &found) ||
        found.Model != LF_VIGNETTING_MODEL_PA)
        return;
    constexpr int places = 11;
    for (int i = 0; i < places; ++i) {
        const double r2 = std::pow(static_cast<double>(i) / (places - 1), 2);
        const double light =
            1 + r2 * (found.Terms[0] + r2 * (found.Terms[1] + r2 * found.Terms[2]));
        if (light > 0)
            all.push_back({.f_number = f_number, .image_height = std::sqrt(r2), .light = light});
    }
}

/// The apertures at which its light was measured.
std::vector<float> apertures_of(const lfLens& lens, float focal_length_mm) {
    std::vector<float> all;
    for (auto* const* it = lens.CalibVignetting; it != nullptr && *it != nullptr; ++it)
        if (std::abs((*it)->Focal - focal_length_mm) < 0.1f * focal_length_mm)
            all.push_back((*it)->Aperture);
    std::ranges::sort(all);
    all.erase(std::unique(all.begin(), all.end()), all.end());
    return all;
}

optics::LensProfile profile_of(const lfLens& lens) {
    const float focal_length_mm = std::max(lens.MinFocal, lens.MaxFocal);
    const std::vector<float> apertures = apertures_of(lens, focal_length_mm);
    optics::LensProfile profile{.widest_f_number = 0, .focal_length_mm = focal_length_mm};
    if (lens.MinAperture > 0)
        profile.widest_f_number = lens.MinAperture;
    else if (!apertures.empty())
        profile.widest_f_number = apertures.front();
    if (lens.MaxAperture > profile.widest_f_number)
        profile.smallest_f_number = lens.MaxAperture;
    if (!is_full_frame(lens))
        return profile;
    std::vector<optics::MeasuredLight> light;
    for (const float f_number : apertures)
        if (f_number >= profile.widest_f_number)
            add_light(lens, focal_length_mm, f_number, light);
    constexpr double far_m = 1000;
    if (const auto fit = fit_light({.focal_length_mm = focal_length_mm,
                                    .distance_m = far_m,
                                    .widest_f_number = profile.widest_f_number},
                                   light)) {
        profile.vignetting = fit->vignetting;
        profile.natural_falloff = fit->natural_falloff;
    }
    return profile;
}

}  // namespace

bool has_lens_database() noexcept {
    return true;
}

namespace {

/// By maker and model or by the model alone; one for full frame first, if several are called so.
const lfLens* named_exactly(const lfDatabase& database, const std::string& name) {
    const lfLens* found = nullptr;
    for (const auto* it = lf_db_get_lenses(&database); it != nullptr && *it != nullptr; ++it)
        if ((name_of(**it) == name || word_of(lf_mlstr_get((*it)->Model)) == name) &&
            (found == nullptr || (is_full_frame(**it) && !is_full_frame(*found))))
            found = *it;
    return found;
}

tl::expected<optics::LensProfile, NotInDatabase> looked_up(const std::string& name) {
    const Database database = opened();
    if (!database)
        return tl::make_unexpected(
            NotInDatabase{"the lens database cannot be read", "install liblensfun-data-v1"});
    if (const lfLens* spelt_so = named_exactly(*database, name))
        return profile_of(*spelt_so);
    const lfLens** found = lf_db_find_lenses_hd(database.get(), nullptr, nullptr, name.c_str(),
                                                LF_SEARCH_SORT_AND_UNIQUIFY);
    const std::unique_ptr<void, decltype(&lf_free)> owner{static_cast<void*>(found), lf_free};
    if (found == nullptr || found[0] == nullptr)
        return tl::make_unexpected(
            NotInDatabase{fmt::format("the lens database has no lens `{}`", name),
                          "spell it as there, maker and model, or take the line out"});
    if (found[1] == nullptr)
        return profile_of(*found[0]);
    std::string some;
    constexpr int most_named = 3;
    for (int i = 0; i < most_named && found[i] != nullptr; ++i)
        some += fmt::format("{}`{}`", i == 0 ? "" : ", ", name_of(*found[i]));
    return tl::make_unexpected(
        NotInDatabase{fmt::format("the lens database has several lenses like `{}`", name),
                      "write one of them whole, as in " + some});
}

}  // namespace

// Reading all of it takes a tenth of a second, and scenes are read again and again.
tl::expected<optics::LensProfile, NotInDatabase> find_in_database(const std::string& name) {
    static LastAnswers<std::string, tl::expected<optics::LensProfile, NotInDatabase>> last;
    return last(name, looked_up);
}

std::vector<std::string> lenses_in_database() {
    std::vector<std::string> names;
    const Database database = opened();
    if (!database)
        return names;
    for (const lfLens* const* it = lf_db_get_lenses(database.get());
         it != nullptr && *it != nullptr; ++it)
        if (is_full_frame(**it) && (*it)->CalibVignetting != nullptr)
            names.push_back(name_of(**it));
    return names;
}

#else

bool has_lens_database() noexcept {
    return false;
}

tl::expected<optics::LensProfile, NotInDatabase> find_in_database(const std::string& /*name*/) {
    return tl::make_unexpected(
        NotInDatabase{"this program was built without a lens database",
                      "build it where liblensfun-dev is installed, or take the line out"});
}

std::vector<std::string> lenses_in_database() {
    return {};
}

#endif

}  // namespace backrow::scene_file
