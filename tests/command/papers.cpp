#include "papers.h"

#include <catch2/catch.hpp>

#include <fmt/format.h>

#include <array>
#include <cstdio>
#include <cstdlib>
#include <memory>
#include <regex>

namespace backrow::command {
namespace {

std::string told_by(const std::string& command) {
    const std::unique_ptr<std::FILE, int (*)(std::FILE*)> pipe{::popen(command.c_str(), "r"),
                                                               ::pclose};
    REQUIRE(pipe);
    std::string text;
    std::array<char, 4096> part{};
    while (const std::size_t got = std::fread(part.data(), 1, part.size(), pipe.get()))
        text.append(part.data(), got);
    return text;
}

std::string with_single_spaces(const std::string& text) {
    return std::regex_replace(text, std::regex{"(\\s|\u00a0)+"}, " ");
}

}  // namespace

std::string text_of_pdf(const std::string& file) {
    return with_single_spaces(told_by("pdftotext -enc UTF-8 '" + file + "' -"));
}

std::string lines_of_pdf(const std::string& file) {
    return with_single_spaces(told_by("pdftotext -layout -enc UTF-8 '" + file + "' -"));
}

PageSize page_of_pdf(const std::string& file) {
    const std::string told = told_by("pdfinfo '" + file + "'");
    std::smatch size;
    REQUIRE(std::regex_search(told, size, std::regex{R"(Page size: +([\d.]+) x ([\d.]+) pts)"}));
    REQUIRE(told.find("Pages:           1\n") != told.npos);
    return {std::stod(size[1]), std::stod(size[2])};
}

std::vector<std::string> Writing::options() const {
    return {"--language", is_german ? "de" : "en", "--units", is_imperial ? "imperial" : "metric"};
}

std::string Writing::number(double value, int decimals) const {
    std::string digits = fmt::format("{:.{}f}", value, decimals);
    if (const auto sign = digits.find('.'); is_german && sign != digits.npos)
        digits[sign] = ',';
    return digits;
}

std::string Writing::figures(double value, int digits) const {
    std::string text = fmt::format("{:.{}g}", value, digits);
    if (const auto sign = text.find('.'); is_german && sign != text.npos)
        text[sign] = ',';
    return text;
}

std::string Writing::metres(double m) const {
    if (!is_imperial)
        return number(m, 2) + " m";
    const auto inches = std::lround(m / 0.0254);
    return is_german ? fmt::format("{} Fuß {} Zoll", inches / 12, inches % 12)
                     : fmt::format("{} ft {} in", inches / 12, inches % 12);
}

std::string Writing::room(double m) const {
    if (std::isinf(m))
        return "∞";
    if (!is_imperial)
        return number(100 * m, 100 * m < 10 ? 1 : 0);
    const double inches = m / 0.0254;
    return inches < 0.005 ? "0" : number(inches, inches < 0.995 ? 2 : inches < 9.95 ? 1 : 0);
}

std::string Writing::paces(double m) const {
    const auto halves = std::lround(2 * m / 0.75);
    return fmt::format("{}{} {}", halves / 2, halves % 2 == 0 ? "" : "½",
                       is_german ? "Schritte" : "paces");
}

std::string Writing::aperture(double f_number) const {
    return "f/" + figures(f_number, 6);
}

std::vector<Writing> writings(std::size_t turn) {
    const std::vector<Writing> all{{false, false}, {true, true}, {true, false}, {false, true}};
    return std::getenv("BACKROW_ALL_PAPERS") != nullptr ? all : std::vector{all[turn % all.size()]};
}

}  // namespace backrow::command
