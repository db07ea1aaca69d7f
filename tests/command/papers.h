#pragma once

// Papers as their reader meets them: the text of a PDF, and numbers as a language and its units
// write them, worked out apart from the program.

#include <cmath>
#include <cstddef>
#include <string>
#include <vector>

namespace backrow::command {

/// As poppler's pdftotext reads it, column by column; each run of spaces, no-break spaces and line
/// breaks as one.
[[nodiscard]] std::string text_of_pdf(const std::string& file);
/// The same line by line of the page.
[[nodiscard]] std::string lines_of_pdf(const std::string& file);

/// Width and height of its page, points.
struct PageSize {
    double width_pt = 0;
    double height_pt = 0;
};
[[nodiscard]] PageSize page_of_pdf(const std::string& file);

/// How a page writes.
struct Writing {
    bool is_german = false;
    bool is_imperial = false;

    [[nodiscard]] std::vector<std::string> options() const;
    /// With the language's sign between whole and fraction.
    [[nodiscard]] std::string number(double value, int decimals) const;
    /// So many digits that count.
    [[nodiscard]] std::string figures(double value, int digits) const;
    /// "4.58 m", "15 ft 0 in".
    [[nodiscard]] std::string metres(double m) const;
    /// "40", from ten centimetres on whole, without its unit; "∞".
    [[nodiscard]] std::string room(double m) const;
    /// "12½ paces" of 0.75 m.
    [[nodiscard]] std::string paces(double m) const;
    /// "f/2.8".
    [[nodiscard]] std::string aperture(double f_number) const;
};

/// All four, or one after the other as a test takes its turn: BACKROW_ALL_PAPERS in the environment
/// asks for more than a test run has time for.
[[nodiscard]] std::vector<Writing> writings(std::size_t turn);

}  // namespace backrow::command
