#include "papers/client/client_page.h"

#include "papers/client/client_words.h"
#include "papers/client/html.h"
#include "papers/words/quantities.h"

#include "plan/comparing/carried_lens.h"

#include "base/assets.h"
#include "base/image_files.h"
#include "base/utf8.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <utility>

namespace backrow::papers {
namespace {

/// A picture as the two files of which a browser takes the one that it can read.
struct TwoFiles {
    std::string webp;
    std::string jpeg;
};

struct EncodedPicture {
    TwoFiles whole;
    TwoFiles faces;
};

TwoFiles two_files(const Image<Rgb8>& picture, int quality) {
    return {.webp = data_uri("image/webp", webp_bytes(picture, quality)),
            .jpeg = data_uri("image/jpeg", jpeg_bytes(picture, quality * 3 / 4))};
}

/// Where there are closer looks at all.
bool has_faces(const ClientPictures& pictures) {
    return !pictures.looked_at.empty();
}

std::vector<EncodedPicture> encoded(const ClientPictures& pictures, int quality) {
    std::vector<EncodedPicture> all;
    for (const ClientPicture& picture : pictures.pictures)
        all.push_back(
            {.whole = two_files(picture.whole, quality),
             .faces = has_faces(pictures) ? two_files(picture.faces, quality) : TwoFiles{}});
    return all;
}

/// Elements of one page. What only the script can do is hidden until it runs.
class PageWriter {
public:
    PageWriter(const ClientFacts& facts, const ClientPictures& pictures, const ClientAssets& assets,
               const ClientChoices& choices)
        : facts_{facts}, pictures_{pictures}, assets_{assets}, language_{choices.language},
          words_{client_words(facts, choices.language, choices.units)} {}

    [[nodiscard]] std::string page(const std::vector<EncodedPicture>& encoded) const {
        return "<!doctype html>\n" +
               element("html", {{"lang", say("en")}}, head() + "\n" + body(encoded)) + '\n';
    }

private:
    using Attributes = std::vector<Attribute>;

    [[nodiscard]] std::string say(std::string_view sentence,
                                  const std::vector<Part>& parts = {}) const {
        return language_.say(sentence, parts);
    }
    /// An element with a text in it.
    [[nodiscard]] static std::string told(std::string_view name, const Attributes& attributes,
                                          std::string_view text) {
        return element(name, attributes, html_text(text));
    }
    /// Everything but its own style, its own script and pictures within it is refused.
    [[nodiscard]] std::string policy() const {
        const std::string none{"'none'"};
        const std::vector<std::pair<std::string, std::string>> rules{
            {"default-src", none},
            {"img-src", "data:"},
            {"style-src", policy_hash(assets_.style)},
            {"script-src", policy_hash(assets_.script)},
            {"base-uri", none},
            {"form-action", none}};
        std::vector<std::string> lines;
        for (const auto& [what, from] : rules)
            lines.push_back(fmt::format("{} {}", what, from));
        return fmt::format("{}", fmt::join(lines, "; "));
    }
    [[nodiscard]] std::string head() const {
        const auto meta = [](const char* name, const char* content) {
            return void_element("meta", {{"name", name}, {"content", content}});
        };
        return element("head", {},
                       void_element("meta", {{"charset", "utf-8"}}) +
                           void_element("meta", {{"http-equiv", "Content-Security-Policy"},
                                                 {"content", policy()}}) +
                           meta("viewport", "width=device-width,initial-scale=1") +
                           meta("referrer", "no-referrer") + told("title", {}, words_.title) +
                           element("style", {}, assets_.style));
    }
    [[nodiscard]] std::string body(const std::vector<EncodedPicture>& encoded) const {
        const std::string header =
            element("header", {},
                    told("h1", {{"dir", "auto"}}, words_.title) + told("p", {}, words_.summary));
        const Image<Rgb8>& first = pictures_.pictures.front().whole;
        const std::string shape{first.height_px() > first.width_px() ? "tall" : "wide"};
        const std::string main = element("main", {{"class", shape}},
                                         comparison(encoded) + "\n" + closer() + "\n" + controls() +
                                             "\n" + tables() + "\n" + meanings());
        std::string rehearsed = say("A rehearsal before the shoot: the people are dolls of "
                                    "measured size, and the blur is that of the lens.");
        if (plan::trusts_perfect_lens(facts_.scene, std::ranges::min(facts_.strip.f_numbers)))
            rehearsed += ' ' + say("Reckoned with a perfect lens; few are so wide open.");
        const std::string footer =
            element("footer", {},
                    told("p", {}, rehearsed) +
                        told("p", {},
                             say("This page is one file. It asks the network for nothing and keeps "
                                 "nothing.")));
        return element("body", {},
                       header + "\n" + main + "\n" + footer + "\n" +
                           element("script", {}, assets_.script));
    }
    [[nodiscard]] static std::string picture(const TwoFiles& files, const Image<Rgb8>& pixels,
                                             std::string alt, const Attributes& attributes) {
        return element("picture", attributes,
                       void_element("source", {{"type", "image/webp"}, {"srcset", files.webp}}) +
                           void_element("img", {{"src", files.jpeg},
                                                {"alt", std::move(alt)},
                                                {"width", fmt::format("{}", pixels.width_px())},
                                                {"height", fmt::format("{}", pixels.height_px())},
                                                {"decoding", "sync"}}));
    }
    /// Where each face that can be looked at is, "left top width height" in percent.
    [[nodiscard]] static std::string places(const ClientPicture& picture) {
        std::vector<std::string> all;
        for (const auto& place : picture.places)
            all.push_back(place ? fmt::format("{:.2f} {:.2f} {:.2f} {:.2f}", 100 * place->left,
                                              100 * place->top, 100 * place->width,
                                              100 * place->height)
                                : "-");
        return fmt::format("{}", fmt::join(all, "|"));
    }
    [[nodiscard]] std::string figure(std::size_t i, const EncodedPicture& encoded) const {
        const PictureWords& words = words_.pictures[i];
        const ClientPicture& made = pictures_.pictures[i];
        std::string said;
        for (std::size_t way = 0; way < words.said.size(); ++way) {
            Attributes attributes{{"data-way", fmt::format("{}", way)}};
            if (way != facts_.own_way)
                attributes.push_back({"hidden"});
            said += told("p", attributes, words.said[way]);
        }
        Attributes attributes{{"data-places", places(made)}};
        if (is_as_set(facts_, i))
            attributes.push_back({"data-planned"});
        std::string inside =
            element("div", {{"class", "whole"}},
                    picture(encoded.whole, made.whole, words_.title + ", " + words.label, {}));
        if (has_faces(pictures_))
            inside += picture(encoded.faces, made.faces, "", {{"class", "faces"}, {"hidden"}});
        return element("figure", attributes,
                       inside + element("figcaption", {}, told("h3", {}, words.label) + said)) +
               "\n";
    }
    /// One picture with its slider; the second, beside it, is filled by the script.
    [[nodiscard]] std::string pane(const std::string& number, std::string_view figures,
                                   std::string_view label) const {
        std::string ticks;
        for (const PictureWords& words : words_.pictures)
            ticks += told("li", {}, words.setting);
        const std::string id{"slider-" + number};
        Attributes attributes{{"class", "pane"}};
        if (number != "1")
            attributes.push_back({"hidden"});
        return element(
            "div", attributes,
            element("div", {{"class", "stack"}}, figures) +
                element("div", {{"class", "slide"}, {"hidden"}},
                        told("label", {{"for", id}}, label) +
                            void_element("input",
                                         {{"type", "range"},
                                          {"id", id},
                                          {"min", "0"},
                                          {"max", fmt::format("{}", words_.pictures.size() - 1)},
                                          {"step", "1"},
                                          {"value", "0"}}) +
                            element("ol", {{"aria-hidden", "true"}}, ticks)) +
                element("div",
                        {{"class", "said"},
                         {"aria-live", "polite"},
                         {"aria-atomic", "true"},
                         {"hidden"}},
                        ""));
    }
    [[nodiscard]] std::string comparison(const std::vector<EncodedPicture>& encoded) const {
        std::string figures{"\n"};
        for (std::size_t i = 0; i < encoded.size(); ++i)
            figures += figure(i, encoded[i]);
        return element(
            "section", {{"class", "panes"}, {"aria-labelledby", "pictures"}},
            told("h2", {{"id", "pictures"}, {"class", "unseen"}}, say("The pictures")) +
                pane("1", figures, words_.leafing) + "\n" +
                pane("2", "", say("{leafing}, second picture", {{"leafing", words_.leafing}})));
    }
    [[nodiscard]] std::string controls() const {
        std::string ways;
        for (std::size_t way = 0; way < words_.ways.size(); ++way) {
            const std::string id = fmt::format("way-{}", way);
            Attributes attributes{
                {"type", "radio"}, {"name", "way"}, {"id", id}, {"value", fmt::format("{}", way)}};
            if (way == facts_.own_way)
                attributes.push_back({"checked"});
            ways += element("div", {},
                            void_element("input", attributes) +
                                element("label", {{"for", id}},
                                        html_text(words_.ways[way].name) +
                                            told("span", {}, words_.ways[way].size)));
        }
        std::string buttons =
            told("button", {{"type", "button"}, {"id", "beside"}, {"aria-pressed", "false"}},
                 say("Two side by side"));
        if (has_faces(pictures_))
            buttons += told("p", {}, say("Tap a face for a closer look."));
        return element(
            "section", {{"class", "controls"}, {"aria-labelledby", "choices"}, {"hidden"}},
            told("h2", {{"id", "choices"}, {"class", "unseen"}}, say("What to look at")) +
                element("fieldset", {},
                        told("legend", {}, say("How will you look at it?")) + ways) +
                element("div", {{"class", "buttons"}}, buttons));
    }
    [[nodiscard]] std::string closer() const {
        if (!has_faces(pictures_))
            return {};
        return element(
            "section",
            {{"class", "closer"},
             {"aria-labelledby", "closer"},
             {"data-columns", fmt::format("{}", pictures_.columns)},
             {"data-tile", fmt::format("{} {}", pictures_.tile_width_px, pictures_.tile_height_px)},
             {"hidden"}},
            element("h2", {{"id", "closer"}, {"tabindex", "-1"}},
                    html_text(say("A closer look:")) + ' ' + element("bdi", {}, "")) +
                told("p", {}, say("At 100 %: one pixel of the camera is one of this page.")) +
                element("div",
                        {{"role", "region"},
                         {"tabindex", "0"},
                         {"aria-label", say("This face in every picture")}},
                        element("ol", {}, "")) +
                told("button", {{"type", "button"}}, say("Close")));
    }
    [[nodiscard]] std::string table(std::size_t way) const {
        std::string heads = told("td", {}, "");
        for (const PictureWords& words : words_.pictures)
            heads += told("th", {{"scope", "col"}}, words.setting);
        std::string rows;
        for (std::size_t person = 0; person < facts_.scene.people.size(); ++person) {
            const auto looked_at = std::ranges::find(pictures_.looked_at, person);
            Attributes attributes;
            if (looked_at != pictures_.looked_at.end())
                attributes.push_back(
                    {"data-face", fmt::format("{}", looked_at - pictures_.looked_at.begin())});
            std::string cells = element("th", {{"scope", "row"}},
                                        told("bdi", {}, facts_.scene.people[person].name));
            for (const std::vector<plan::Face>& faces : facts_.ways[way].faces) {
                const plan::Verdict verdict = verdict_of(faces[person]);
                cells +=
                    told("td", {{"class", css_class(verdict)}}, verdict_word(verdict, language_));
            }
            rows += element("tr", attributes, cells) + "\n";
        }
        return element("div",
                       {{"class", "table"},
                        {"data-way", fmt::format("{}", way)},
                        {"role", "region"},
                        {"tabindex", "0"},
                        {"aria-labelledby", fmt::format("table-{}", way)}},
                       element("table", {},
                               told("caption", {{"id", fmt::format("table-{}", way)}},
                                    words_.ways[way].name + ", " + words_.ways[way].size) +
                                   element("thead", {}, element("tr", {}, heads)) +
                                   element("tbody", {}, rows)));
    }
    /// "cut off" is two words, and a class is one.
    [[nodiscard]] static std::string css_class(plan::Verdict verdict) {
        return verdict == plan::Verdict::cut_off ? "cut" : to_word(verdict);
    }
    [[nodiscard]] std::string tables() const {
        std::string all = told("h2", {{"id", "everybody"}}, say("Everybody in every picture"));
        for (std::size_t way = 0; way < facts_.ways.size(); ++way)
            all += table(way);
        return element("section", {{"class", "tables"}, {"aria-labelledby", "everybody"}}, all);
    }
    [[nodiscard]] std::string meanings() const {
        const std::array meanings{
            std::pair{plan::Verdict::crisp, say("As sharp as an eye can tell.")},
            std::pair{plan::Verdict::fine, say("Sharp to whoever looks at it as usual.")},
            std::pair{plan::Verdict::soft, say("The blur shows, as a mood or as a fault.")},
            std::pair{plan::Verdict::lost, say("Blurred beyond saving.")},
            std::pair{plan::Verdict::hidden, say("More than half of the face is behind others.")},
            std::pair{plan::Verdict::cut_off, say("The head is not whole in the picture.")}};
        std::string list;
        for (const auto& [verdict, meaning] : meanings)
            list += told("dt", {}, verdict_word(verdict, language_)) + told("dd", {}, meaning);
        return element("section", {{"class", "meanings"}, {"aria-labelledby", "words"}},
                       told("h2", {{"id", "words"}}, say("What the words mean")) +
                           element("dl", {}, list));
    }

    const ClientFacts& facts_;
    const ClientPictures& pictures_;
    const ClientAssets& assets_;
    const Language& language_;
    ClientWords words_;
};

}  // namespace

Made<ClientAssets> client_assets() {
    ClientAssets assets;
    for (const auto& [name, into] : {std::pair{"client/page.css", &assets.style},
                                     std::pair{"client/page.js", &assets.script}}) {
        const auto path = find_asset(name);
        if (!path)
            return tl::make_unexpected(path.error());
        auto text = read_text(*path);
        if (!text)
            return tl::make_unexpected(text.error());
        *into = std::move(*text);
    }
    return assets;
}

tl::expected<ClientPage, TooHeavy> client_page(const ClientFacts& facts,
                                               const ClientPictures& pictures,
                                               const ClientAssets& assets,
                                               const ClientChoices& choices) {
    const PageWriter writer{facts, pictures, assets, choices};
    std::size_t least_bytes = 0;
    for (const int quality : page_qualities) {
        ClientPage page{.html = writer.page(encoded(pictures, quality)), .quality = quality};
        if (page.html.size() < choices.most_bytes)
            return page;
        least_bytes = page.html.size();
    }
    return tl::make_unexpected(TooHeavy{least_bytes});
}

}  // namespace backrow::papers
