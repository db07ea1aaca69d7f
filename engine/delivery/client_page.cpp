#include "delivery/client_page.h"

#include "delivery/strip_pictures.h"

#include "render/passes/crop_rect.h"

#include <fmt/format.h>

#include <algorithm>

namespace backrow::delivery {
namespace {

constexpr double bytes_of_megabyte = 1e6;

}  // namespace

int usual_client_width_px(const scene::CameraView& view) {
    return std::min(render::usual_width_texels(view), view.width_px);
}

std::optional<Problem> cannot_be_leafed_through(const plan::Strip& strip) {
    if (strip.frames.size() < plan::least_leaves)
        return Problem{
            {},
            fmt::format("a page for the client needs at least {} pictures", plan::least_leaves),
            "name apertures, distances or lenses"};
    if (const auto faceless = faceless_frame(strip))
        return Problem{{}, faceless->what, faceless->mend};
    return std::nullopt;
}

tl::expected<papers::ClientPage, NotMade> client_page(const papers::ClientFacts& facts,
                                                      const papers::ClientPictures& pictures,
                                                      const papers::ClientChoices& choices) {
    const auto assets = papers::client_assets();
    if (!assets)
        return tl::make_unexpected(NotMade{assets.error()});
    auto page = papers::client_page(facts, pictures, *assets, choices);
    if (!page)
        return tl::make_unexpected(NotMade{Problem{
            {},
            fmt::format("the page would have {:.1f} MB even with its pictures at quality {}, more "
                        "than the {:g} MB that travel by e-mail",
                        static_cast<double>(page.error().bytes) / bytes_of_megabyte,
                        papers::page_qualities.back(),
                        static_cast<double>(choices.most_bytes) / bytes_of_megabyte),
            "take fewer pictures, or narrower ones"}});
    return std::move(*page);
}

std::string quality_note(const papers::ClientPage& page) {
    if (page.quality == papers::page_qualities.front())
        return {};
    return fmt::format("its pictures have quality {} in place of {}, so that the page stays under "
                       "{:g} MB",
                       page.quality, papers::page_qualities.front(),
                       static_cast<double>(papers::most_page_bytes) / bytes_of_megabyte);
}

}  // namespace backrow::delivery
