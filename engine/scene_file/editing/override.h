#pragma once

// One value given as "key=value", taken apart.

#include "base/problem.h"

#include <toml++/toml.h>

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace backrow::scene_file {

struct Override {
    std::string file;  ///< What places name: "--set camera.f_number=2.8".
    std::vector<std::string> parts;
    std::string value_text;  ///< The value as TOML.
    toml::table value;       ///< The same, under the key "value".

    [[nodiscard]] Problem problem(std::string what, std::string mend) const {
        return {{file, 0, 0}, std::move(what), std::move(mend)};
    }
};

/// Whether it has a key and a value at all, with = between; what they are is another matter.
[[nodiscard]] bool is_key_and_value(std::string_view text);

/// "person.\"a=b\".back_m" of "person.\"a=b\".back_m=0.1".
///
/// text  is_key_and_value()
[[nodiscard]] std::string_view key_of(std::string_view text);

/// text  a dotted key ("camera.f_number", "person.Bram.lean_m", "row.0.back_m"), = and a TOML
///       value, or a bare word taken as text. A part with dots of its own stands in double quotes,
///       in which \" and \\ stand for " and \.
[[nodiscard]] tl::expected<Override, Problem> take_apart(const std::string& text);

/// Where only one of several keys may be given (what to focus on, a use or a print, a place of
/// one's own or a carrier): those that this override displaces wherever they are given; none where
/// its value is "no".
[[nodiscard]] std::vector<std::string_view> rivals_of(const Override& override);

/// A whole number and nothing else.
[[nodiscard]] std::optional<std::size_t> index_from(std::string_view text);

}  // namespace backrow::scene_file
