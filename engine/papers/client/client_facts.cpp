#include "papers/client/client_facts.h"

#include <utility>
#include <variant>

namespace backrow::papers {
namespace {

bool is_same(const scene::Viewing& one, const scene::Viewing& other) {
    const auto* print = std::get_if<optics::PrintViewing>(&one);
    const auto* other_print = std::get_if<optics::PrintViewing>(&other);
    if (print == nullptr || other_print == nullptr)
        return print == other_print;
    return print->long_side_cm == other_print->long_side_cm &&
           print->distance_cm == other_print->distance_cm;
}

WayOfLooking way_of_looking(const scene::Scene& scene, const plan::Strip& strip,
                            std::optional<scene::Use> use, const scene::Viewing& viewing) {
    WayOfLooking way{.use = use, .viewing = viewing};
    scene::Scene looked_at = scene;
    looked_at.viewing = viewing;
    for (plan::StripFrame& frame : plan::strip(looked_at, strip.places, strip.f_numbers).frames)
        way.faces.push_back(std::move(frame.faces));
    return way;
}

}  // namespace

ClientFacts client_facts(const scene::Scene& scene, const plan::Strip& strip, Leafing leafing) {
    ClientFacts facts{.scene = scene, .leafing = leafing, .strip = strip};
    std::optional<std::size_t> own_way;
    for (const scene::Use use : {scene::Use::phone, scene::Use::album, scene::Use::wall}) {
        const scene::Viewing viewing = scene::viewing_for(use);
        if (is_same(viewing, scene.viewing))
            own_way = facts.ways.size();
        facts.ways.push_back(way_of_looking(scene, strip, use, viewing));
    }
    facts.own_way = own_way.value_or(facts.ways.size());
    if (!own_way)
        facts.ways.push_back(way_of_looking(scene, strip, std::nullopt, scene.viewing));
    return facts;
}

const plan::StripPlace& place_of(const ClientFacts& facts, std::size_t picture) {
    return facts.strip.places[picture / facts.strip.f_numbers.size()];
}

double f_number_of(const ClientFacts& facts, std::size_t picture) {
    return facts.strip.f_numbers[picture % facts.strip.f_numbers.size()];
}

bool is_as_set(const ClientFacts& facts, std::size_t picture) {
    const plan::StripPlace& place = place_of(facts, picture);
    const scene::Camera& camera = facts.scene.camera;
    return place.lens_to_mark_m == camera.lens_to_mark_m &&
           place.focal_length_mm == camera.focal_length_mm &&
           f_number_of(facts, picture) == camera.f_number;
}

}  // namespace backrow::papers
