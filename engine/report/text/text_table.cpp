#include "report/text/text_table.h"

#include "base/utf8.h"

#include <algorithm>
#include <cstddef>

namespace backrow::report {
namespace {

constexpr int gap = 2;

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

}  // namespace

std::string text_table(const std::vector<Column>& columns,
                       const std::vector<std::vector<std::string>>& rows) {
    std::vector<std::string> headings;
    std::vector<int> widths;
    for (const Column& column : columns) {
        headings.push_back(column.heading);
        widths.push_back(display_width(column.heading));
    }
    std::vector<std::vector<std::string>> lines = rows;
    for (auto& row : lines)
        for (std::size_t i = 0; i < columns.size(); ++i) {
            row[i] = on_one_line(row[i]);
            widths[i] = std::max(widths[i], display_width(row[i]));
        }

    std::string table = line_of(columns, widths, headings);
    int whole_width = -gap;
    for (const int width : widths)
        whole_width += width + gap;
    table += std::string(static_cast<std::size_t>(std::max(0, whole_width)), '-') + '\n';
    for (const auto& row : lines)
        table += line_of(columns, widths, row);
    return table;
}

}  // namespace backrow::report
