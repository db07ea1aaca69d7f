#pragma once

// What the outputs of one scene are made from, each made once: the view, the face table, the
// preview that picture and faces share, the strip for screen and paper.

#include "delivery/choices.h"
#include "delivery/not_made.h"
#include "delivery/preview.h"

#include "papers/words/language.h"
#include "plan/advice/advice_wanted.h"
#include "report/strip/strip_layout.h"
#include "report/strip/strip_sheet.h"

#include "base/length_words.h"

#include <optional>
#include <string>

namespace backrow::delivery {

/// What the scene is asked besides.
struct Asked {
    optics::Grade odds_grade = optics::Grade::fine;  ///< As good as which every face is to be.
    plan::AdviceWanted advice{};                     ///< With at least one lens.
    Units units = Units::metric;
    std::string language{papers::languages.front()};  ///< One of them: of papers.
};

class Workshop {
public:
    /// All three outlive it.
    Workshop(const scene::Scene& scene, const Choices& choices, const Asked& asked);

    [[nodiscard]] const scene::Scene& scene() const noexcept { return scene_; }
    [[nodiscard]] const Choices& choices() const noexcept { return choices_; }
    [[nodiscard]] const Asked& asked() const noexcept { return asked_; }
    [[nodiscard]] const scene::CameraView& view() const noexcept { return view_; }
    /// As predicted.
    [[nodiscard]] const plan::FaceTable& table() const noexcept { return table_; }

    /// With everybody's face, if that is wanted too. Asked again, it is there.
    [[nodiscard]] tl::expected<const Preview*, NotMade> preview(const render::Progress& progress);

    struct Strip {
        report::StripSheet sheet;
        report::StripLayout layout;
    };
    /// As `strip` makes it of whoever asks for nothing else. Asked again, it is there.
    [[nodiscard]] tl::expected<const Strip*, NotMade> strip(const render::Progress& progress);

private:
    const scene::Scene& scene_;
    const Choices& choices_;
    const Asked& asked_;
    scene::CameraView view_;
    plan::FaceTable table_;
    std::optional<Preview> preview_;
    std::optional<Strip> strip_;
};

/// How wide the picture will be: as chosen, but no wider than the camera's.
[[nodiscard]] int picture_width_px(const Choices& choices, const scene::CameraView& view);

/// How far the making of pictures has come in all.
///
/// has_faces  whether faces come after the picture
[[nodiscard]] double share_of_all(Step step, double done, bool has_faces) noexcept;

}  // namespace backrow::delivery
