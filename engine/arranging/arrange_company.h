#pragma once

// Who stands in which row, and where in it, when some belong together. Common practice, no source:
// couples side by side, families beside and before each other, small children in front of their
// own, whom the picture is about in the middle of the front row, and beside them the eldest.

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace backrow::arranging {

/// A place in a row, both counted from 0, from the front and from picture left.
struct Spot {
    std::size_t row = 0;
    std::size_t place = 0;
};

enum class Middle { no, eldest, celebrated };

/// What counts of somebody when places are given.
struct Applicant {
    double stature_m = 0;
    std::string family{};               ///< Empty for none.
    std::vector<std::size_t> beside{};  ///< Who stays next to them, by number; said of one or both.
    int front = 0;                      ///< 0 anywhere; the greater, the sooner in the front row.
    bool not_in_front = false;
    Middle middle = Middle::no;
    std::optional<Spot> pinned{};  ///< Has a place already, and keeps it.
    /// Of those who stand already; whoever need not move is left there.
    std::optional<std::size_t> stands_at{};
};

/// Everybody by number, row by row, from picture left. Whoever stays beside somebody is in the same
/// row, next to them; rows are filled in front with those who belong there and then with the small.
/// In the rows, places are exchanged as long as that brings those who belong together nearer to
/// each other, and else the tall to the middle.
///
/// counts   how many stand in each row; they sum up to the people. A pair that would be torn apart
///          goes into a row with room for both, or makes the last one longer;
///          only a chain longer than any row is torn
/// returns  as many rows as counts; the same for the same people
[[nodiscard]] std::vector<std::vector<std::size_t>>
rows_of_company(const std::vector<Applicant>& people, const std::vector<int>& counts);

}  // namespace backrow::arranging
