#include "report/text/text_table.h"

#include "base/utf8.h"

#include <algorithm>
#include <cstddef>

namespace backrow::report {
namespace {

constexpr int gap = 2;
constexpr int least_text_width = 16;

std::string spaces(int count) {
    return std::string(static_cast<std::size_t>(std::max(0, count)), ' ');
}

std::string aligned(const std::string& cell, int width, Align align) {
    const std::string pad = spaces(width - display_width(cell));
    return align == Align::left ? cell + pad : pad + cell;
}

std::string line_of(const std::vector<Column>& columns, const std::vector<int>& widths,
                    const std::vector<std::string>& cells) {
    std::string line;
    for (std::size_t i = 0; i < columns.size(); ++i) {
        if (i > 0)
            line += spaces(gap);
        line += aligned(cells[i], widths[i], columns[i].align);
    }
    line.erase(line.find_last_not_of(' ') + 1);
    return line + '\n';
}

using Cells = std::vector<std::string>;

std::vector<int> widths_of(const std::vector<Column>& columns, const std::vector<Cells>& lines) {
    std::vector<int> widths(columns.size(), 0);
    for (const Cells& line : lines)
        for (std::size_t i = 0; i < columns.size(); ++i)
            widths[i] = std::max(widths[i], display_width(line[i]));
    return widths;
}

int whole_width(const std::vector<int>& widths) {
    int whole = -gap;
    for (const int width : widths)
        whole += width + gap;
    return std::max(0, whole);
}

/// "margin cm" as "margin" over "cm"; a single word stays in the lower line.
std::vector<Cells> in_two_lines(const Cells& headings) {
    std::vector<Cells> lines(2);
    for (const std::string& heading : headings) {
        const auto space = heading.find_last_of(' ');
        lines[0].push_back(space == heading.npos ? std::string{} : heading.substr(0, space));
        lines[1].push_back(space == heading.npos ? heading : heading.substr(space + 1));
    }
    return lines;
}

/// Pieces of a text between words, each at most so wide unless a word alone is wider.
std::vector<std::string> broken(const std::string& text, int width) {
    std::vector<std::string> pieces(1);
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t end = std::min(text.find(' ', at), text.size());
        const std::string word = text.substr(at, end - at);
        std::string& piece = pieces.back();
        if (!piece.empty() && display_width(piece) + 1 + display_width(word) > width)
            pieces.push_back(word);
        else
            piece += (piece.empty() ? "" : " ") + word;
        at = end + 1;
    }
    return pieces;
}

/// The rows with their last cells broken.
std::vector<Cells> with_last_broken(const std::vector<Cells>& rows, int width) {
    std::vector<Cells> lines;
    for (const Cells& row : rows)
        for (bool first = true; const std::string& piece : broken(row.back(), width)) {
            lines.push_back(first ? row : Cells(row.size()));
            lines.back().back() = piece;
            first = false;
        }
    return lines;
}

}  // namespace

std::string text_table(const std::vector<Column>& columns, const std::vector<Cells>& rows) {
    std::vector<Cells> headings(1);
    for (const Column& column : columns)
        headings.front().push_back(column.heading);
    std::vector<Cells> lines = rows;
    for (Cells& row : lines)
        for (std::string& cell : row)
            cell = on_one_line(cell);
    const auto widths = [&] {
        std::vector<Cells> all = headings;
        all.insert(all.end(), lines.begin(), lines.end());
        return widths_of(columns, all);
    };
    const bool has_pairs = std::ranges::any_of(columns, [](const Column& column) {
        return column.heading.find(' ') != std::string::npos;
    });
    if (has_pairs && whole_width(widths()) > table_width)
        headings = in_two_lines(headings.front());
    if (const int over = whole_width(widths()) - table_width;
        over > 0 && columns.back().align == Align::left)
        lines = with_last_broken(lines, std::max(widths().back() - over, least_text_width));

    const std::vector<int> wide = widths();
    std::string table;
    for (const Cells& heading : headings)
        table += line_of(columns, wide, heading);
    table += std::string(static_cast<std::size_t>(whole_width(wide)), '-') + '\n';
    for (const Cells& row : lines)
        table += line_of(columns, wide, row);
    return table;
}

}  // namespace backrow::report
