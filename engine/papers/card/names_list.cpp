#include "papers/card/names_list.h"

#include "report/drawing/verdict_mark.h"

#include <algorithm>
#include <map>
#include <optional>

namespace backrow::papers {
namespace {

/// A row's heading, or somebody's line.
struct ListItem {
    const std::string* heading = nullptr;
    const NameLine* person = nullptr;
    double height_pt = 0;
};

/// Where in a column the parts of a line stand, from its left.
struct ListColumns {
    double width_pt = 0;
    double number_right_pt = 0;
    double name_left_pt = 0;
    double name_width_pt = 0;
    double room_right_pt = 0;
    double verdict_left_pt = 0;
};

constexpr double between_columns = 1.2;  // Of the size of the letters, as all shares below.
constexpr double gap = 0.5;
constexpr double least_name = 6;
constexpr double above_heading = 0.35;
constexpr double little_higher = 1.25;
constexpr std::size_t fewest_in_column = 3;  ///< Lines; else a row of two stands side by side.

double sign_size(const Letters& letters) {
    constexpr double sign_height = 0.95;
    return sign_height * letters.size_pt / report::verdict_mark_height_px;
}

double widest(Page& page, const std::vector<NamesOfRow>& rows, const Letters& letters,
              std::string NameLine::*part) {
    double widest_pt = 0;
    for (const NamesOfRow& row : rows)
        for (const NameLine& person : row.people)
            widest_pt = std::max(widest_pt, page.text_width_pt(person.*part, letters));
    return widest_pt;
}

struct PartWidths {
    double number_pt = 0;
    double room_pt = 0;
    double verdict_pt = 0;
};

PartWidths part_widths(Page& page, const std::vector<NamesOfRow>& rows, const Letters& letters,
                       bool signs_alone) {
    return {.number_pt = widest(page, rows, letters, &NameLine::number),
            .room_pt = widest(page, rows, letters, &NameLine::room),
            .verdict_pt = signs_alone ? 0 : widest(page, rows, letters, &NameLine::verdict)};
}

/// Nothing where the names would be too narrow.
std::optional<ListColumns> list_columns(const ListPlace& place, const PartWidths& widths,
                                        int columns) {
    const double size_pt = place.letters.size_pt;
    const double gap_pt = gap * size_pt;
    ListColumns list;
    list.width_pt = (place.width_pt - (columns - 1) * between_columns * size_pt) / columns;
    const double sign_pt = sign_size(place.letters) * report::verdict_mark_width_px;
    list.number_right_pt = widths.number_pt;
    list.name_left_pt = list.number_right_pt + gap_pt;
    list.verdict_left_pt = list.width_pt - widths.verdict_pt - 1;
    list.room_right_pt = list.verdict_left_pt - sign_pt - gap_pt;
    list.name_width_pt = list.room_right_pt - widths.room_pt - gap_pt - list.name_left_pt;
    if (list.name_width_pt < least_name * size_pt)
        return std::nullopt;
    return list;
}

Letters heading_letters(const Letters& letters) {
    return {.size_pt = letters.size_pt, .bold = true};
}

std::vector<ListItem> items(Page& page, const std::vector<NamesOfRow>& rows,
                            const ListColumns& list, const Letters& letters, std::size_t most) {
    std::vector<ListItem> items;
    std::size_t people = 0;
    for (const NamesOfRow& row : rows) {
        if (people == most)
            break;
        items.push_back(
            {.heading = &row.heading,
             .height_pt = page.lines(list.width_pt, row.heading, heading_letters(letters)) *
                              letters.line_pt() +
                          above_heading * letters.size_pt});
        for (const NameLine& person : row.people) {
            if (people == most)
                break;
            ++people;
            items.push_back({.person = &person,
                             .height_pt = page.lines(list.name_width_pt, person.name, letters) *
                                          letters.line_pt()});
        }
    }
    return items;
}

enum class Rows { whole, broken };

/// What must stand in the column where this item does: a heading with its whole row, or at least
/// with whoever comes first.
double together_pt(const std::vector<ListItem>& items, std::size_t first, Rows rows) {
    double height_pt = items[first].height_pt;
    if (items[first].heading == nullptr)
        return height_pt;
    for (std::size_t i = first + 1; i < items.size() && items[i].heading == nullptr; ++i) {
        height_pt += items[i].height_pt;
        if (rows == Rows::broken)
            break;
    }
    return height_pt;
}

/// How many items each column takes where none may be higher. Nothing where they do not fit.
std::optional<std::vector<std::size_t>> dealt(const std::vector<ListItem>& items, int columns,
                                              double most_pt, Rows rows) {
    std::vector<std::size_t> counts(static_cast<std::size_t>(columns), 0);
    std::size_t next = 0;
    for (std::size_t& count : counts) {
        double height_pt = 0;
        while (next < items.size()) {
            if (height_pt + together_pt(items, next, rows) > most_pt)
                break;
            height_pt += items[next].height_pt;
            ++next;
            ++count;
        }
    }
    return next == items.size() ? std::optional{counts} : std::nullopt;
}

struct ListLayout {
    ListColumns list;
    std::vector<ListItem> items;
    std::vector<std::size_t> counts;
    double height_pt = 0;
};

/// The lowest columns that take all items, or those that keep rows whole where these are little
/// higher.
ListLayout lowest(std::vector<ListItem> items, const ListColumns& list, int columns,
                  double step_pt) {
    double sum_pt = 0, highest_pt = 0;
    for (const ListItem& item : items) {
        sum_pt += item.height_pt;
        highest_pt = std::max(highest_pt, item.height_pt);
    }
    double most_pt = std::max(sum_pt / columns, highest_pt);
    const auto deal = [&](Rows rows) { return dealt(items, columns, most_pt + 1e-6, rows); };
    auto broken = deal(Rows::broken);
    for (; !broken; broken = deal(Rows::broken))
        most_pt += step_pt;
    const double lowest_pt = most_pt;
    for (; most_pt <= little_higher * lowest_pt; most_pt += step_pt)
        if (auto whole = deal(Rows::whole))
            return {list, std::move(items), std::move(*whole), most_pt};
    return {list, std::move(items), std::move(*broken), lowest_pt};
}

void draw_person(Page& page, double left, double top, const NameLine& person,
                 const ListColumns& list, const Letters& letters, bool signs_alone) {
    page.text_ending_at(left + list.number_right_pt, top, person.number, letters);
    page.paragraph(left + list.name_left_pt, top, list.name_width_pt, person.name, letters);
    page.text_ending_at(left + list.room_right_pt, top, person.room, letters);
    const double size = sign_size(letters);
    const double sign_pt = size * report::verdict_mark_width_px;
    page.sign(left + list.verdict_left_pt - sign_pt, top + 0.12 * letters.size_pt, person.sign,
              size);
    if (!signs_alone)
        page.text_ending_at(left + list.verdict_left_pt +
                                page.text_width_pt(person.verdict, letters),
                            top, person.verdict, letters);
}

/// Each sign of the list with its word, on one line.
double draw_signs(Page& page, const ListPlace& place, const std::vector<NamesOfRow>& rows) {
    std::map<plan::Verdict, std::string> words;
    for (const NamesOfRow& row : rows)
        for (const NameLine& person : row.people)
            words.emplace(person.sign, person.verdict);
    const double size = sign_size(place.letters);
    const double gap_pt = gap * place.letters.size_pt;
    double left = place.left;
    for (const auto& [verdict, word] : words) {
        page.sign(left, place.top + 0.12 * place.letters.size_pt, verdict, size);
        left += size * report::verdict_mark_width_px + gap_pt;
        left += page.text_width_pt(word, place.letters);
        page.text_ending_at(left, place.top, word, place.letters);
        left += 3 * gap_pt;
    }
    return place.top + 1.2 * place.letters.line_pt();
}

}  // namespace

double draw_names(Page& page, const ListPlace& place, const std::vector<NamesOfRow>& rows,
                  std::size_t most) {
    const PartWidths widths = part_widths(page, rows, place.letters, place.signs_alone);
    std::optional<ListLayout> best;
    for (int columns = 1; columns <= most_name_columns; ++columns) {
        const auto list = list_columns(place, widths, columns);
        if (!list)
            break;
        std::vector<ListItem> all = items(page, rows, *list, place.letters, most);
        if (columns > 1 && all.size() < fewest_in_column * static_cast<std::size_t>(columns))
            break;
        ListLayout layout = lowest(std::move(all), *list, columns, place.letters.line_pt() / 4);
        if (!best || layout.height_pt < best->height_pt)
            best = std::move(layout);
    }
    if (!best)
        return place.top;
    double list_top = place.top;
    if (place.signs_alone)
        list_top = draw_signs(page, place, rows);
    std::size_t next = 0;
    double left = place.left;
    for (const std::size_t count : best->counts) {
        double top = list_top;
        for (std::size_t i = 0; i < count; ++i, ++next) {
            const ListItem& item = best->items[next];
            // A column begins with its first line, whatever that is.
            if (item.heading != nullptr && i == 0)
                top -= above_heading * place.letters.size_pt;
            if (item.heading != nullptr)
                page.paragraph(left, top + above_heading * place.letters.size_pt,
                               best->list.width_pt, *item.heading, heading_letters(place.letters));
            else
                draw_person(page, left, top, *item.person, best->list, place.letters,
                            place.signs_alone);
            top += item.height_pt;
        }
        left += best->list.width_pt + between_columns * place.letters.size_pt;
    }
    return list_top + best->height_pt;
}

}  // namespace backrow::papers
