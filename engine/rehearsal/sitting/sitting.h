#pragma once

// A rehearsal as it stands: the scene that is being changed, everything that follows from it, and
// whom the photographer is looking at. What a window shows and does, without the window.

#include "plan/drawings/model_outlines.h"
#include "rehearsal/hands/handling.h"
#include "rehearsal/sitting/edited_scene.h"
#include "rehearsal/sitting/facts.h"
#include "rehearsal/sitting/two_states.h"

#include "scene/scene.h"
#include "stage/model_shapes.h"

#include "base/problem.h"

#include <cstddef>
#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace backrow::rehearsal {

class Sitting {
public:
    [[nodiscard]] static Checked<Sitting> open(const std::string& path);
    /// Of a scene that no file has yet (EditedScene::begin).
    [[nodiscard]] static Checked<Sitting> begin(const std::string& text, const std::string& path);

    [[nodiscard]] const EditedScene& edited() const noexcept { return edited_; }
    [[nodiscard]] const scene::Scene& scene() const noexcept { return *scene_; }
    /// The same, to be kept by whoever works on it meanwhile.
    [[nodiscard]] const std::shared_ptr<const scene::Scene>& shared_scene() const noexcept {
        return scene_;
    }
    [[nodiscard]] const Facts& facts() const noexcept { return facts_; }
    /// Another number whenever the scene has become another.
    [[nodiscard]] int edition() const noexcept { return edition_; }
    /// Goes on from the numbers of a sitting before this one.
    void start_at(int edition) noexcept { edition_ = edition; }

    /// Does it, or leaves all as it was and complaint() says why. Nothing to do is no complaint.
    void make(const Change& change, DragId drag = 0);
    void undo();
    void redo();
    [[nodiscard]] Checked<void> take_merged(const Merged& merged,
                                            const std::vector<std::string>& from_file);
    void overrule_file() { edited_.overrule_file(); }
    /// As EditedScene::take_text() and TwoStates::exchange() do; complaint() says why not.
    void take_text(const std::string& what, std::string text);
    void exchange(TwoStates& two);
    [[nodiscard]] Made<void> save();
    [[nodiscard]] Checked<Made<void>> save_as(const std::string& path);

    /// A number for a movement of the hand that begins now.
    [[nodiscard]] DragId new_drag() noexcept { return ++last_drag_; }

    /// Whom the keys move; nobody at first. Of several, the one who was chosen last.
    [[nodiscard]] std::optional<std::size_t> chosen() const noexcept {
        return all_chosen_.empty() ? std::nullopt : std::optional{all_chosen_.back()};
    }
    [[nodiscard]] const std::vector<std::size_t>& all_chosen() const noexcept {
        return all_chosen_;
    }
    [[nodiscard]] bool is_chosen(std::size_t person) const;
    /// Nobody else; nobody at all.
    void choose(std::optional<std::size_t> person);
    /// As well as those who are chosen already, or no longer.
    void choose_also(std::size_t person);
    void choose_all(std::vector<std::size_t> people) { all_chosen_ = std::move(people); }
    /// The next in the order of the faces, worst first, or the one before; after the last the
    /// first.
    void choose_next(int steps);

    /// Why the last change could not be made, in one line; empty where it was.
    [[nodiscard]] const std::string& complaint() const noexcept { return complaint_; }
    void complain(std::string line) { complaint_ = std::move(line); }

private:
    explicit Sitting(EditedScene edited);
    void follow();

    EditedScene edited_;
    std::shared_ptr<const scene::Scene> scene_;
    stage::ModelShapes shapes_;
    plan::ModelOutlines outlines_;
    Facts facts_;
    int edition_ = 0;
    DragId last_drag_ = 0;
    std::vector<std::size_t> all_chosen_;
    std::string complaint_;
};

}  // namespace backrow::rehearsal
