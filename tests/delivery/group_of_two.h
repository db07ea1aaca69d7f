#pragma once

// A scene to give away, and where.

#include "../base/folder.h"
#include "../window/two_people.h"

#include "delivery/give_away.h"
#include "delivery/outputs.h"
#include "plan/comparing/carried_lens.h"

#include <algorithm>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

namespace backrow::delivery {

struct GroupOfTwo {
    Folder folder;
    scene::Scene scene = window::two_people();
    Choices choices = usual_choices(folder / "duo.toml");
    Asked asked{.advice = {.lenses = {plan::scene_lens(scene)}}};

    GroupOfTwo() { tick({}); }

    /// These outputs and no others.
    void tick(const std::vector<std::string>& keys) {
        for (Piece& piece : choices.pieces)
            piece.is_wanted = std::ranges::find(keys, piece.key) != keys.end();
    }
    [[nodiscard]] Piece& piece(const std::string& key) {
        return *std::ranges::find(choices.pieces, key, &Piece::key);
    }
    void write(const char* name, const std::string& text) const {
        std::ofstream{folder / name, std::ios::binary} << text;
    }
    [[nodiscard]] std::string text(const char* name) const {
        std::ifstream file{folder / name, std::ios::binary};
        return {std::istreambuf_iterator<char>{file}, {}};
    }
    [[nodiscard]] auto give(const WholeProgress& progress = [](double, const char*) {
        return true;
    }) const {
        return give_away(scene, choices, asked, progress);
    }
    /// What hinders it, in one line.
    [[nodiscard]] std::string hindered() const {
        const auto why = hindrance(choices);
        return why ? to_line(*why) : "";
    }
};

}  // namespace backrow::delivery
