#pragma once

// HTML, written so that whatever is data shows as it is: a name that looks like a tag is text.

#include <cstddef>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace backrow::papers {

struct Attribute {
    std::string_view name;
    std::string value{};  ///< As it is; empty for one that is there or not.
};

/// Text as it may stand between tags, on one line and in valid UTF-8.
[[nodiscard]] std::string html_text(std::string_view text);

/// name    of the tag
/// inside  HTML
[[nodiscard]] std::string element(std::string_view name, const std::vector<Attribute>& attributes,
                                  std::string_view inside);
/// One that has no end and nothing inside: an img, a meta.
[[nodiscard]] std::string void_element(std::string_view name,
                                       const std::vector<Attribute>& attributes);

/// "data:image/webp;base64,…".
///
/// type  "image/webp"
[[nodiscard]] std::string data_uri(std::string_view type, std::span<const std::byte> bytes);

/// By which a Content-Security-Policy knows a style or a script in the page: "'sha256-…'".
///
/// text  what stands between its tags
[[nodiscard]] std::string policy_hash(std::string_view text);

}  // namespace backrow::papers
