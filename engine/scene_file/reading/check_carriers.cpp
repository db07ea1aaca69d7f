// Who carries whom: names, postures, statures.

#include "scene_file/reading/scene_draft.h"
#include "scene_file/toml/near_miss.h"

#include "scene/index_of.h"

#include "figures/posture/carry.h"

#include <fmt/format.h>

#include <algorithm>

namespace backrow::scene_file {
namespace {

/// What is wrong with this pair, or nothing.
std::optional<Problem> fault_of(const scene::Person& child, const scene::Person& carrier,
                                const Place& at) {
    const auto problem = [&](std::string what, std::string mend) {
        return Problem{at, std::move(what), std::move(mend)};
    };
    if (carrier.name == child.name)
        return problem(fmt::format("`{}` cannot carry themselves", child.name),
                       "name who carries them");
    if (figures::is_carried(carrier.pose.posture))
        return problem(
            fmt::format("`{}` is carried and cannot carry `{}`", carrier.name, child.name),
            "name somebody who stands");
    if (carrier.pose.posture != figures::Posture::standing)
        return problem(
            fmt::format("`{}` does not stand and cannot carry `{}`", carrier.name, child.name),
            "let them stand, or name somebody who does");
    const double stature_m = child.measures.stature_m;
    if (stature_m > figures::tallest_carried_m)
        return problem(fmt::format("`{}` is {:.2f} m tall, too tall and heavy to be carried",
                                   child.name, stature_m),
                       fmt::format("up to {:.2f} m are carried here", figures::tallest_carried_m));
    if (stature_m > figures::tallest_carried_share * carrier.measures.stature_m)
        return problem(fmt::format("`{}`, {:.2f} m tall, is too small to carry `{}`, {:.2f} m",
                                   carrier.name, carrier.measures.stature_m, child.name, stature_m),
                       "name somebody taller");
    return std::nullopt;
}

}  // namespace

void resolve_carriers(SceneDraft& draft, Findings& findings) {
    std::vector<scene::Person>& people = draft.scene.people;
    std::vector<bool> has_child(people.size());
    for (const CarriedBy& carried : draft.carried) {
        const auto index = index_of(draft.scene, carried.name);
        if (!index) {
            findings.add(
                carried.at,
                fmt::format("nobody in the picture is called `{}`", shortened(carried.name)),
                suggestion(carried.name, names_of(people), "in the picture are"));
            continue;
        }
        scene::Person& child = people[carried.child];
        const scene::Person& carrier = people[*index];
        if (const auto fault = fault_of(child, carrier, carried.at)) {
            findings.add_all({*fault});
            continue;
        }
        if (has_child[*index]) {
            findings.add(carried.at, fmt::format("`{}` carries somebody already", carrier.name),
                         "nobody carries two children here");
            continue;
        }
        has_child[*index] = true;
        child.carrier = static_cast<int>(*index);
    }
}

}  // namespace backrow::scene_file
