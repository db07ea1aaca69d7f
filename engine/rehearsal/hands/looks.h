#pragma once

// How somebody looks and bears themselves, as choices among the words of a scene file.

#include "rehearsal/hands/handling.h"

#include "scene/scene.h"

#include <cstddef>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace backrow::rehearsal {

/// One thing that can be chosen for somebody.
struct Look {
    const char* name;                     ///< "Hair colour"
    const char* key;                      ///< Of [[person]].
    std::vector<std::string_view> words;  ///< An empty one first, where it may be left unsaid.
    /// What is chosen; empty where the name decides, or where it is no word.
    std::string_view (*now)(const scene::Person&);
    bool is_bearing = false;  ///< Posture, arms, face: not what somebody wears.

    /// What is shown for the empty word.
    [[nodiscard]] const char* unsaid() const noexcept {
        return is_bearing ? "as usual" : "by name";
    }
};

/// Posture first, then from skin to shoes.
[[nodiscard]] const std::vector<Look>& looks();

/// The same for each of these people; whoever cannot, as a child that is carried cannot sit, is
/// left as they are.
///
/// people  indices in Scene::people
/// word    one of the look's; the empty one takes back what was said
[[nodiscard]] Change choose_look(const scene::Scene& scene, std::span<const std::size_t> people,
                                 const Look& look, std::string_view word);

/// Everything that was said of somebody's body and looks, said of somebody else.
[[nodiscard]] std::vector<std::string> looks_of(const scene::Person& person,
                                                std::string_view other);

}  // namespace backrow::rehearsal
