#include "scene_file/toml/toml_file.h"

#include "scene_file/toml/key_depth.h"

#include "base/files_read.h"
#include "base/missing_folder.h"
#include "base/spelt_number.h"

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <filesystem>
#include <fstream>

namespace backrow::scene_file {
namespace {

namespace fs = std::filesystem;

Place place_of(const toml::source_region& source) {
    const std::string file = source.path ? *source.path : std::string{};
    if (file.starts_with(override_prefix))
        return {file, 0, 0};
    return {file, static_cast<int>(source.begin.line), static_cast<int>(source.begin.column)};
}

/// The line of a text, counted from 1, without its end.
std::string_view line_of(std::string_view text, std::size_t number) {
    for (; number > 1; --number) {
        const auto end = text.find('\n');
        if (end == text.npos)
            return {};
        text.remove_prefix(end + 1);
    }
    return text.substr(0, text.find_first_of("\r\n"));
}

std::string_view trimmed(std::string_view text) {
    const auto first = text.find_first_not_of(" \t");
    return first == text.npos ? std::string_view{}
                              : text.substr(first, text.find_last_not_of(" \t") - first + 1);
}

/// How to write a number that TOML does not know but photographers do: "write 2.8: a point, not a
/// comma". Nothing where this line holds none.
std::optional<std::string> mend_of_number(std::string_view line) {
    const auto equals = line.find('=');
    if (equals == line.npos)
        return std::nullopt;
    const std::string_view key = trimmed(line.substr(0, equals));
    const std::string_view value = trimmed(line.substr(equals + 1, line.find('#') - equals - 1));
    const auto number = number_from_spelling(value, measure_of_key(key));
    if (!number)
        return number.error().empty() ? std::nullopt : std::optional{number.error()};
    constexpr double steps_in_one = 1e6;
    const double rounded = std::round(*number * steps_in_one) / steps_in_one;
    if (value.find_first_not_of("0123456789,+-") == value.npos)
        return fmt::format("write {}: a point, not a comma", rounded);
    return fmt::format("write {}, or {} in quotation marks", rounded, value);
}

// The parser's words, less where it stood in its own grammar, and what to do about the usual slips.
Problem told_plainly(const toml::parse_error& error, std::string_view text) {
    std::string_view said = error.description();
    constexpr std::string_view lead = "Error while parsing ";
    if (said.starts_with(lead))
        if (const auto colon = said.find(": "); colon != said.npos)
            said.remove_prefix(colon + 2);
    if (const auto aside = said.find(" (TOML_"); aside != said.npos)
        said = said.substr(0, aside);
    const auto about = [&](std::string_view words) { return said.find(words) != said.npos; };

    std::string mend = "mend the spelling of this line";
    if (const auto number = mend_of_number(line_of(text, error.source().begin.line)))
        mend = *number;
    else if (about("utf-8"))
        mend = "save the file as plain text in UTF-8";
    else if (about("redefine existing"))
        mend = "it was written before in this file; keep one of the two";
    else if (about("could not determine value type") || about("expected 'true'") ||
             about("expected 'false'"))
        mend = "words stand in quotation marks, numbers without";
    else if (about("expected '='"))
        mend = "write key = value";
    else if (about("end-of-file"))
        mend = "something opened here is never closed";
    else if (about("nested value depth"))
        mend = "remove some brackets";
    return {place_of(error.source()), fmt::format("cannot read this as TOML: {}", said),
            std::move(mend)};
}

}  // namespace

Place place_of(const toml::key& key) {
    return place_of(key.source());
}
Place place_of(const toml::node& value) {
    return place_of(value.source());
}

tl::expected<toml::table, Problem> parse_toml(std::string_view text, std::string_view file) {
    if (const auto deep = first_overlong_key(text))
        return tl::unexpected(Problem{{std::string{file}, deep->line, deep->column},
                                      fmt::format("a key of more than {} parts", most_key_parts),
                                      "no key of this program has more than three"});
    try {
        return toml::parse(text, file);
    } catch (const toml::parse_error& error) {
        return tl::unexpected(told_plainly(error, text));
    }
}

std::optional<std::string> read_text(std::string_view kind, Findings& findings) {
    const fs::path path{findings.file()};
    std::error_code trouble;
    const fs::file_status status = fs::status(path, trouble);
    if (const fs::path folder = missing_folder(path); !fs::exists(status) && !folder.empty()) {
        findings.add_unreadable(fmt::format("there is no folder {}", folder.string()),
                                "check its name, and which folder you are in");
        return std::nullopt;
    }
    if (!fs::exists(status)) {
        findings.add_unreadable(fmt::format("there is no such {} file", kind),
                                "check the name and the folder");
        return std::nullopt;
    }
    if (fs::is_directory(status)) {
        findings.add_unreadable("this is a folder", fmt::format("name a {} file inside it", kind));
        return std::nullopt;
    }
    if (!fs::is_regular_file(status)) {
        findings.add_unreadable("this is not an ordinary file",
                                fmt::format("name a {} file on a disk", kind));
        return std::nullopt;
    }
    std::ifstream file = open_to_read(path);
    if (!file) {
        findings.add_unreadable(fmt::format("the {} file may not be read", kind),
                                "allow reading it, or copy it to a folder of your own");
        return std::nullopt;
    }
    std::string text;
    std::array<char, 1u << 16> piece;
    while (text.size() <= most_file_bytes &&
           (file.read(piece.data(), piece.size()) || file.gcount()))
        text.append(piece.data(), static_cast<std::size_t>(file.gcount()));
    if (file.bad()) {
        findings.add_unreadable(fmt::format("reading the {} file failed", kind),
                                "check the disk it lies on");
        return std::nullopt;
    }
    if (text.size() > most_file_bytes) {
        findings.add_unreadable(
            fmt::format("the file is larger than {} MB", most_file_bytes >> 20),
            fmt::format("name a {} file, which is a text of some pages at most", kind));
        return std::nullopt;
    }
    return text;
}

std::optional<toml::table> parse_toml_file(std::string_view kind, Findings& findings) {
    const auto text = read_text(kind, findings);
    if (!text)
        return std::nullopt;
    auto parsed = parse_toml(*text, findings.file());
    if (!parsed) {
        findings.add_all({parsed.error()});
        return std::nullopt;
    }
    return std::move(*parsed);
}

}  // namespace backrow::scene_file
