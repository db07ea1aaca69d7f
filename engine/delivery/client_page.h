#pragma once

// The page for the client as it is given away, by the verb and out of the window alike.

#include "delivery/client_pictures.h"
#include "delivery/not_made.h"

#include "papers/client/client_page.h"
#include "plan/comparing/strip.h"
#include "scene/camera_view.h"

#include "base/problem.h"

#include <optional>
#include <string>

namespace backrow::delivery {

/// Of pictures whose long side is what a screen shows.
[[nodiscard]] int usual_client_width_px(const scene::CameraView& view);

/// What is wrong with a strip for a page: too few pictures, or one without a whole face.
[[nodiscard]] std::optional<Problem> cannot_be_leafed_through(const plan::Strip& strip);

/// papers::client_page() with its own style and script.
[[nodiscard]] tl::expected<papers::ClientPage, NotMade>
client_page(const papers::ClientFacts& facts, const papers::ClientPictures& pictures,
            const papers::ClientChoices& choices);

/// That its pictures are not as good as usual, for they would have been too heavy; empty where they
/// are.
[[nodiscard]] std::string quality_note(const papers::ClientPage& page);

}  // namespace backrow::delivery
