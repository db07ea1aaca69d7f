#include "report/text/sun_words.h"

#include "plan/comparing/cautions.h"
#include "report/text/listed.h"

#include "base/utf8.h"

#include <fmt/format.h>

#include <cstddef>

namespace backrow::report {
namespace {

constexpr std::size_t most_names = 3;

std::string whom(std::span<const plan::Face> faces, const std::vector<std::size_t>& who) {
    if (who.size() == faces.size() && who.size() > 1)
        return "everybody";
    std::vector<std::string> names;
    for (const std::size_t i : who)
        if (names.size() < most_names)
            names.push_back(on_one_line(faces[i].name));
    if (who.size() > most_names)
        return fmt::format("{} and {} more", fmt::join(names, ", "), who.size() - most_names);
    return listed(std::move(names));
}

LightAdvice where_from(plan::LightFrom from) {
    switch (from) {
    case plan::LightFrom::behind_camera:
        return {"The sun is behind the camera.",
                "Faces are lit evenly and flatly. Mind your own shadow in the foreground."};
    case plan::LightFrom::aside:
        return {"The sun comes from the side.",
                "It models faces. Turn the group a little towards it, so that nobody's shadow "
                "falls on a neighbour."};
    case plan::LightFrom::behind_group:
        return {"The sun is behind the group.",
                "Nobody squints. Shade the lens from it; expose for the faces."};
    case plan::LightFrom::overhead:
        return {"The sun is overhead.",
                "Brows shade the eyes. Go into open shade, or wait until it is lower."};
    case plan::LightFrom::sky:
        return {"No sun that casts shadows.",
                "Light from the whole sky is soft: nobody squints, and it may come from any side."};
    case plan::LightFrom::below_horizon:
        return {"The sun is below the horizon.",
                "What light there is, is soft and goes quickly: meter again every few minutes."};
    case plan::LightFrom::window:
        break;
    }
    return {"Light through a window.",
            "Turn faces towards it. It falls off fast: those farthest from it get the least. A "
            "white board opposite lifts the shadows."};
}

/// "A shadow across the face: Bram, from Odile."
std::string shadow_sentence(std::span<const plan::Face> faces,
                            const std::vector<std::size_t>& who) {
    std::vector<std::string> each;
    for (const std::size_t i : who) {
        if (each.size() == most_names)
            break;
        std::vector<std::string> from = faces[i].shaders;
        for (std::string& name : from)
            name = on_one_line(name);
        const std::string name = on_one_line(faces[i].name);
        each.push_back(from.empty() ? name
                                    : fmt::format("{}, from {}", name, listed(std::move(from))));
    }
    std::string sentence = fmt::format("A shadow across the face: {}", fmt::join(each, "; "));
    if (who.size() > most_names)
        sentence += fmt::format("; and {} more", who.size() - most_names);
    return sentence + '.';
}

}  // namespace

std::vector<LightAdvice> light_advice(const plan::SunChecks& checks,
                                      std::span<const plan::Face> faces) {
    std::vector<LightAdvice> advice;
    if (checks.is_in_frame)
        advice.push_back(
            {"The sun stands in the picture.", to_words(plan::Caution::sun_in_picture), true});
    advice.push_back(where_from(checks.from));
    if (!checks.in_eyes.empty())
        advice.push_back({fmt::format("Sun in the eyes: {}.", whom(faces, checks.in_eyes)),
                          "Turn the group away from it or go into open shade; or let them close "
                          "their eyes until you have counted to three."});
    if (!checks.shadow_across.empty())
        advice.push_back({shadow_sentence(faces, checks.shadow_across),
                          "Half a step aside for one of the two, or turn the group."});
    if (!checks.under_hats.empty())
        advice.push_back(
            {fmt::format("The hat's shadow on the eyes: {}.", whom(faces, checks.under_hats)),
             "Hat back or chin up, or turn away from the sun."});
    if (!checks.backlit.empty())
        advice.push_back({fmt::format("Backlit: {}.", whom(faces, checks.backlit)),
                          "Expose for the faces and let the background grow bright, or light "
                          "them with flash or a white board."});
    return advice;
}

}  // namespace backrow::report
