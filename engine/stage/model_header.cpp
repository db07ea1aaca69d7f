#include "stage/model_header.h"

#include "stage/model_refusal.h"

#include "base/files_read.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <fstream>
#include <istream>
#include <sstream>
#include <string>
#include <string_view>
#include <vector>

namespace backrow::stage {
namespace {

constexpr std::size_t longest_header_lines = 1000;

constexpr std::array<std::string_view, 16> number_types{
    "char", "uchar", "short", "ushort", "int",   "uint",   "float",   "double",
    "int8", "uint8", "int16", "uint16", "int32", "uint32", "float32", "float64"};

bool is_number_type(const std::string& word) {
    return std::ranges::find(number_types, word) != number_types.end();
}

// Every vertex and every face takes a byte at the least.
void check_promise(double count, std::uintmax_t file_bytes) {
    if (!(count >= 0 && count <= static_cast<double>(file_bytes)))
        throw Refusal{"promises more vertices and faces than it holds", save_again};
}

std::vector<std::string> words_of(const std::string& line) {
    std::istringstream stream{line};
    std::vector<std::string> words;
    for (std::string word; stream >> word;)
        words.push_back(word);
    return words;
}

bool has_extension(const std::filesystem::path& file, const char* extension) {
    std::string found = file.extension().string();
    for (char& c : found)
        c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    return found == extension;
}

bool is_whole_number(const std::string& word) {
    constexpr std::size_t most_digits = 12;
    return !word.empty() && word.size() <= most_digits &&
           std::ranges::all_of(word, [](char c) { return c >= '0' && c <= '9'; });
}

enum class Line { element, end, other, damaged };

// Lines of other words than the format's own are left to pass: old exporters sign their files so.
Line kind_of(const std::vector<std::string>& words) {
    const auto is = [&](std::string_view keyword) { return !words.empty() && words[0] == keyword; };
    const auto damaged_unless = [](bool good, Line kind = Line::other) {
        return good ? kind : Line::damaged;
    };
    if (is("end_header"))
        return damaged_unless(words.size() == 1, Line::end);
    if (is("format"))
        return damaged_unless(words.size() == 3 &&
                              (words[1] == "ascii" || words[1] == "binary_little_endian" ||
                               words[1] == "binary_big_endian"));
    if (is("element"))
        return damaged_unless(words.size() == 3 && is_whole_number(words[2]), Line::element);
    if (is("property") && words.size() == 5)
        return damaged_unless(words[1] == "list" && is_number_type(words[2]) &&
                              is_number_type(words[3]));
    if (is("property"))
        return damaged_unless(words.size() == 3 && is_number_type(words[1]));
    return Line::other;
}

void check_ply(std::istream& file, std::uintmax_t file_bytes) {
    std::string line;
    double promised = 0;
    for (std::size_t i = 1; i <= longest_header_lines && std::getline(file, line); ++i) {
        const std::vector<std::string> words = words_of(line);
        const Line kind =
            i == 1 && words != std::vector<std::string>{"ply"} ? Line::damaged : kind_of(words);
        if (kind == Line::damaged)
            throw Refusal{fmt::format("has a damaged PLY header, in its line {}", i), save_again};
        if (kind == Line::end)
            return;
        if (kind == Line::element)
            promised += std::stod(words[2]);
        check_promise(promised, file_bytes);
    }
    throw Refusal{"has a PLY header without an end", save_again};
}

void check_off(std::istream& file, std::uintmax_t file_bytes) {
    std::string magic;
    double vertices = 0;
    double faces = 0;
    if (file >> magic >> vertices >> faces)
        check_promise(vertices + faces, file_bytes);
}

}  // namespace

void check_header(const std::filesystem::path& model, std::uintmax_t file_bytes) {
    std::ifstream file = open_to_read(model);
    std::array<char, 3> start{};
    file.read(start.data(), start.size());
    const std::string_view magic{start.data(), start.size()};
    file.clear();
    file.seekg(0);
    // By content as well as by name, since Assimp looks at both.
    if (magic == "ply" || has_extension(model, ".ply"))
        check_ply(file, file_bytes);
    else if (magic == "OFF" || has_extension(model, ".off"))
        check_off(file, file_bytes);
}

}  // namespace backrow::stage
