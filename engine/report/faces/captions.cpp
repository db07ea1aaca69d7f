#include "report/faces/captions.h"

#include "report/drawing/canvas.h"
#include "report/drawing/paragraph.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <map>

namespace backrow::report {
namespace {

constexpr Rgb8 caption_paper{255, 255, 255};
constexpr Rgb8 caption_ink{24, 28, 36};

struct Standing {
    std::string name;
    double from_left_px = 0;
    double axial_m = 0;
};

/// Of whoever is carried, the row of whoever carries them.
int row_of(const scene::Scene& scene, std::size_t person) {
    const int carrier = scene.people[person].carrier;
    return scene.people[carrier < 0 ? person : static_cast<std::size_t>(carrier)].row;
}

/// place, count  of the row, from the back
std::string row_words(std::size_t place, std::size_t count) {
    if (count == 1)
        return "From left";
    if (place == 0)
        return "Back row, from left";
    if (place + 1 == count)
        return "Front row, from left";
    return count == 3 ? "Middle row, from left" : fmt::format("Row {}, from left", count - place);
}

double mean_axial_m(const std::vector<Standing>& row) {
    double sum_m = 0;
    for (const Standing& person : row)
        sum_m += person.axial_m;
    return sum_m / static_cast<double>(row.size());
}

std::string line_of(const std::string& words, std::vector<Standing> row) {
    std::ranges::stable_sort(row, {}, &Standing::from_left_px);
    std::vector<std::string> names;
    for (const Standing& person : row)
        names.push_back(person.name);
    return fmt::format("{}: {}", words, fmt::join(names, ", "));
}

/// Letters title and lines from the top of the canvas on; how high they are.
double letter(Canvas& canvas, double width_px, double size_px, const std::string& title,
              const std::vector<std::string>& lines) {
    const double line_px = 1.45 * size_px;
    double baseline_y = 1.6 * line_px;
    if (!title.empty())
        baseline_y =
            draw_paragraph(canvas, size_px, baseline_y, width_px - 2 * size_px, line_px, title,
                           {.size_px = size_px, .bold = true, .colour = caption_ink}) +
            0.2 * line_px;
    for (const std::string& line : lines)
        baseline_y =
            draw_paragraph(canvas, size_px, baseline_y, width_px - 2 * size_px, line_px, line,
                           {.size_px = size_px, .bold = false, .colour = caption_ink});
    return baseline_y;
}

}  // namespace

std::vector<std::string> caption_lines(const scene::Scene& scene, const scene::CameraView& view,
                                       const std::vector<plan::Face>& faces) {
    std::map<int, std::vector<Standing>> by_row;
    for (std::size_t i = 0; i < scene.people.size(); ++i) {
        if (!faces[i].cropping.has_whole_head)
            continue;
        const auto seen = project(view, engine_from_mark(faces[i].eye));
        by_row[row_of(scene, i)].push_back({faces[i].name, seen.at_px.x, seen.axial_m});
    }
    std::vector<Standing> alone;
    if (const auto found = by_row.find(-1); found != by_row.end() && by_row.size() > 1)
        alone = std::move(by_row.extract(found).mapped());
    std::vector<std::vector<Standing>> rows;
    for (auto& [number, row] : by_row)
        rows.push_back(std::move(row));
    std::ranges::stable_sort(rows, std::greater{}, mean_axial_m);

    std::vector<std::string> lines;
    for (std::size_t i = 0; i < rows.size(); ++i)
        lines.push_back(line_of(row_words(i, rows.size()), std::move(rows[i])));
    if (!alone.empty())
        lines.push_back(line_of("Beside the rows, from left", std::move(alone)));
    return lines;
}

Image<Rgb8> with_captions(const Image<Rgb8>& picture, const std::string& title,
                          const std::vector<std::string>& lines) {
    const int width_px = picture.width_px();
    const double size_px = std::max(10.0, width_px / 90.0);
    Canvas nowhere(width_px, 1, caption_paper);
    const auto height_px =
        static_cast<int>(std::ceil(letter(nowhere, width_px, size_px, title, lines)));
    Canvas canvas(width_px, height_px, caption_paper);
    letter(canvas, width_px, size_px, title, lines);
    Image<Rgb8> sheet(width_px, picture.height_px() + height_px, caption_paper);
    std::ranges::copy(picture.pixels(), sheet.pixels().begin());
    canvas.copy_into(sheet, 0, picture.height_px());
    return sheet;
}

}  // namespace backrow::report
