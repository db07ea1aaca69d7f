#include "report/tradeoff/tradeoff_report.h"

#include "report/text/caution_words.h"
#include "report/text/csv.h"
#include "report/text/json.h"
#include "report/text/lens_words.h"
#include "report/text/text_table.h"
#include "report/text/trouble_words.h"
#include "report/text/viewing_words.h"

#include "optics/exposure/stops.h"
#include "scene/judged_blur.h"

#include "base/units.h"
#include "base/utf8.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cctype>
#include <cmath>
#include <cstddef>
#include <functional>
#include <optional>
#include <variant>
#include <vector>

namespace backrow::report {
namespace {

using plan::TradeoffCell;
using plan::TradeoffRow;

const std::string& worst_name(const TradeoffReport& report, const TradeoffCell& cell) {
    return report.scene.people[cell.worst.person].name;
}

std::string capital(optics::Grade grade) {
    return {static_cast<char>(std::toupper(optics::to_word(grade)[0]))};
}

/// Whole stops, and what cannot be left out: the ends and the present f-number.
bool has_column(const TradeoffReport& report, double f_number) {
    const plan::TradeoffRange& range = report.tradeoff.range;
    return optics::is_full_stop(f_number) || f_number == report.scene.camera.f_number ||
           f_number == range.widest_f_number || f_number == range.narrowest_f_number;
}

std::string marked(const std::string& words, bool is_present) {
    return words + (is_present ? "*" : "");
}

/// Centimetres, unless the distances are too close together for them.
int decimals_for(const std::vector<TradeoffRow>& rows) {
    constexpr int most = 6;
    int decimals = 2;
    const auto is_exact = [&](const TradeoffRow& row) {
        const double steps = row.lens_to_mark_m * std::pow(10.0, decimals);
        return std::abs(steps - std::round(steps)) < 1e-6 * steps;
    };
    while (decimals < most && !std::ranges::all_of(rows, is_exact))
        ++decimals;
    return decimals;
}

/// How many heads the frame cuts, "-" for none.
std::string heads_cut_words(const plan::FrameCuts& cut) {
    return cut.heads.empty() ? "-" : fmt::format("{}", cut.heads.size());
}

std::string table_of(const TradeoffReport& report,
                     const std::function<std::string(const TradeoffCell&)>& words) {
    const plan::Tradeoff& answer = report.tradeoff;
    const bool cuts_heads = std::ranges::any_of(
        answer.rows, [](const TradeoffRow& row) { return !row.cut.heads.empty(); });
    std::vector<Column> columns{
        {fmt::format("distance {}", length_unit(LengthScale::metres, report.units))}};
    if (cuts_heads)
        columns.push_back({"heads cut"});
    for (const double f_number : answer.f_numbers)
        if (has_column(report, f_number))
            columns.push_back(
                {marked(f_words(f_number), f_number == report.scene.camera.f_number)});
    const int decimals = decimals_for(answer.rows);
    std::vector<std::vector<std::string>> rows;
    for (const TradeoffRow& each : answer.rows) {
        std::vector<std::string> row{
            marked(report.units == Units::metric
                       ? fmt::format("{:.{}f}", each.lens_to_mark_m, decimals)
                       : length_digits(each.lens_to_mark_m, LengthScale::metres, report.units),
                   each.lens_to_mark_m == report.scene.camera.lens_to_mark_m)};
        if (cuts_heads)
            row.push_back(heads_cut_words(each.cut));
        for (const TradeoffCell& cell : each.cells)
            if (has_column(report, cell.f_number))
                row.push_back(words(cell));
        rows.push_back(std::move(row));
    }
    return text_table(columns, rows);
}

std::string lens_table(const std::vector<plan::FramingLens>& lenses, double narrowest_f_number,
                       Units units) {
    const auto at = [&](const std::optional<plan::FNumbers>& holds) {
        if (!holds)
            return std::string{"-"};
        return holds->to < narrowest_f_number
                   ? fmt::format("{} to {}", f_words(holds->from), f_words(holds->to))
                   : f_words(holds->from);
    };
    std::vector<std::vector<std::string>> rows;
    for (const plan::FramingLens& lens : lenses)
        rows.push_back({lens.widest_f_number > 0
                            ? fmt::format("{:g}/{:g}", lens.focal_length_mm, lens.widest_f_number)
                            : fmt::format("{:g}", lens.focal_length_mm),
                        lens.lens_to_mark_m
                            ? length_digits(*lens.lens_to_mark_m, LengthScale::metres, units)
                            : "-",
                        at(lens.fine), at(lens.crisp),
                        lens.fine ? fmt::format("{:.2f}", lens.background_percent) : "-",
                        heads_cut_words(lens.cut)});
    return text_table({{"lens mm"},
                       {fmt::format("distance {}", length_unit(LengthScale::metres, units))},
                       {"all fine from"},
                       {"all crisp from"},
                       {"background % there"},
                       {"heads cut there"}},
                      rows);
}

/// Where some lens has a profile, which have none.
std::string perfect_lenses_line(const TradeoffReport& report) {
    const auto& lenses = report.tradeoff.lenses;
    std::vector<std::string> perfect;
    for (const plan::FramingLens& lens : lenses)
        if (lens.is_perfect)
            perfect.push_back(fmt::format("{:g} mm", lens.focal_length_mm));
    return perfect.empty() || perfect.size() == lenses.size()
               ? std::string{}
               : fmt::format("Taken as perfect, for want of a profile: {}.\n",
                             fmt::join(perfect, ", "));
}

std::string camera_line(const TradeoffReport& report) {
    return fmt::format("{:g} mm, {}; {} {}\n", report.scene.camera.focal_length_mm,
                       focus_words(report.scene, report.units), report.scene.people.size(),
                       report.scene.people.size() == 1 ? "face" : "faces");
}

Json cell_json(const TradeoffReport& report, const TradeoffCell& cell) {
    return {{"f_number", cell.f_number},
            {"worst_face", worst_name(report, cell)},
            {"worst_blur_um", um_from_mm(cell.worst.blur_mm)},
            {"worst_blur_px", cell.worst_px},
            {"worst_view_arcmin", number_or_null(arcmin_of(cell.judged_blur))},
            {"grade", optics::to_word(cell.grade)},
            {"background_blur_percent", cell.background_percent}};
}

Json row_json(const TradeoffReport& report, const TradeoffRow& row) {
    Json json{{"distance_m", row.lens_to_mark_m},
              {"focus_m", row.focus_m},
              {"heads_cut", names_json(report.scene.people, row.cut.heads)},
              {"bodies_cut", names_json(report.scene.people, row.cut.bodies)},
              {"apertures", Json::array()}};
    for (const TradeoffCell& cell : row.cells)
        json["apertures"].push_back(cell_json(report, cell));
    return json;
}

Json from_or_null(const std::optional<plan::FNumbers>& holds) {
    return holds ? Json(holds->from) : Json(nullptr);
}

Json to_or_null(const std::optional<plan::FNumbers>& holds) {
    return holds ? Json(holds->to) : Json(nullptr);
}

Json holding_json(const plan::Holding& holding) {
    return {{"from_f_number", from_or_null(holding.f_numbers)},
            {"to_f_number", to_or_null(holding.f_numbers)},
            {"from_distance_m", number_or_null(holding.from_m)},
            {"everywhere", holding.everywhere},
            {"nowhere", holding.nowhere}};
}

Json lens_json(const TradeoffReport& report, const plan::FramingLens& lens) {
    const auto names = [&](const std::vector<std::size_t>& who) {
        return lens.lens_to_mark_m ? names_json(report.scene.people, who) : Json(nullptr);
    };
    return {
        {"focal_length_mm", lens.focal_length_mm},
        {"widest_f_number", lens.widest_f_number > 0 ? Json(lens.widest_f_number) : Json(nullptr)},
        {"taken_as_perfect", lens.is_perfect},
        {"distance_m", number_or_null(lens.lens_to_mark_m)},
        {"fine_from_f_number", from_or_null(lens.fine)},
        {"fine_to_f_number", to_or_null(lens.fine)},
        {"crisp_from_f_number", from_or_null(lens.crisp)},
        {"crisp_to_f_number", to_or_null(lens.crisp)},
        {"background_blur_percent", lens.fine ? Json(lens.background_percent) : Json(nullptr)},
        {"heads_cut", names(lens.cut.heads)},
        {"bodies_cut", names(lens.cut.bodies)}};
}

}  // namespace

std::string tradeoff_text(const TradeoffReport& report) {
    const std::string title = on_one_line(report.scene.title);
    std::string now = now_words(report);
    now[0] = static_cast<char>(std::toupper(now[0]));
    std::string text = title.empty() ? std::string{} : title + '\n';
    text += camera_line(report) + now + ".\n";
    for (const std::string& sentence : answer_sentences(report))
        text += sentence + '\n';
    for (const std::string& sentence : {balanced_words(report), framing_words(report)})
        if (!sentence.empty())
            text += sentence + '\n';
    text += fmt::format("\nBlur of the worst face, {}\n",
                        unit_words(scene::blur_unit(report.scene.viewing))) +
            table_of(report, [](const TradeoffCell& cell) {
                return fmt::format("{:.2f} {}", cell.judged_blur.amount, capital(cell.grade));
            });
    text += "\nBlur of the background, % of the height of the picture\n" +
            table_of(report, [](const TradeoffCell& cell) {
                return fmt::format("{:.2f}", cell.background_percent);
            });
    if (report.tradeoff.lenses.size() > 1)
        text += "\nLenses carried, where they show the faces as large as now\n" +
                lens_table(report.tradeoff.lenses, report.tradeoff.range.narrowest_f_number,
                           report.units) +
                perfect_lenses_line(report);
    text += "\n* the present setting. C crisp, F fine, S soft, L lost.\n" +
            grades_line(report.scene.viewing, report.units);
    if (const std::string note =
            perfect_lens_note(report.scene, report.tradeoff.range.widest_f_number);
        !note.empty())
        text += note + '\n';
    return text + caution_lines(report.tradeoff.cautions);
}

std::string tradeoff_json(const TradeoffReport& report) {
    const plan::Tradeoff& answer = report.tradeoff;
    Json json{{"title", report.scene.title},
              {"focal_length_mm", report.scene.camera.focal_length_mm},
              {"focus", focus_words(report.scene)},
              {"range",
               {{"distance_min_m", answer.range.nearest_m},
                {"distance_max_m", answer.range.farthest_m},
                {"widest_f_number", answer.range.widest_f_number},
                {"narrowest_f_number", answer.range.narrowest_f_number}}},
              {"now", row_json(report, answer.now)},
              {"fine", holding_json(answer.fine)},
              {"crisp", holding_json(answer.crisp)},
              {"balanced",
               {{"fine_from_f_number", from_or_null(answer.balanced_fine)},
                {"fine_to_f_number", to_or_null(answer.balanced_fine)},
                {"crisp_from_f_number", from_or_null(answer.balanced_crisp)},
                {"crisp_to_f_number", to_or_null(answer.balanced_crisp)}}},
              {"heads_whole_from_distance_m", number_or_null(answer.heads_whole_from_m)},
              {"whole_group", whole_group_json(answer.whole_group)},
              {"cautions", caution_sentences(answer.cautions)},
              {"distances", Json::array()},
              {"lenses", Json::array()}};
    for (const TradeoffRow& row : answer.rows)
        json["distances"].push_back(row_json(report, row));
    for (const plan::FramingLens& lens : answer.lenses)
        json["lenses"].push_back(lens_json(report, lens));
    return json_text(json);
}

std::string tradeoff_csv(const TradeoffReport& report) {
    std::string csv = csv_record({"distance_m", "focus_m", "f_number", "worst_face",
                                  "worst_blur_um", "worst_blur_px", "worst_view_arcmin", "grade",
                                  "background_blur_percent", "heads_cut", "bodies_cut"});
    for (const TradeoffRow& row : report.tradeoff.rows)
        for (const TradeoffCell& cell : row.cells) {
            const auto seen = arcmin_of(cell.judged_blur);
            csv += csv_record(
                {fmt::format("{}", row.lens_to_mark_m), fmt::format("{}", row.focus_m),
                 fmt::format("{}", cell.f_number), worst_name(report, cell),
                 fmt::format("{}", um_from_mm(cell.worst.blur_mm)),
                 fmt::format("{}", cell.worst_px), seen ? fmt::format("{}", *seen) : std::string{},
                 optics::to_word(cell.grade), fmt::format("{}", cell.background_percent),
                 fmt::format("{}", row.cut.heads.size()),
                 fmt::format("{}", row.cut.bodies.size())});
        }
    return csv;
}

}  // namespace backrow::report
