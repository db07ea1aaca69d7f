#include "rehearsal/sitting/new_group.h"

#include "arranging/first_names.h"
#include "scene_file/editing/write_scene.h"

#include "base/spelt_number.h"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <utility>

namespace backrow::rehearsal {
namespace {

std::string without_edges(const std::string& text) {
    const auto first = text.find_first_not_of(" \t");
    return first == text.npos ? std::string{}
                              : text.substr(first, text.find_last_not_of(" \t") - first + 1);
}

/// Reads what was typed, and collects what cannot be read.
class Reader {
public:
    explicit Reader(const NewGroup& group) : group_{group} {
        for (const TypedGuest& guest : group.guests)
            names_.push_back(without_edges(guest.name));
        arranging::NameList list{names_};
        bool is_woman = true;
        for (std::string& name : names_)
            if (name.empty()) {
                name = list.next(is_woman ? figures::Sex::female : figures::Sex::male);
                is_woman = !is_woman;
            }
    }

    [[nodiscard]] Checked<std::vector<scene::Guest>> guests() {
        std::vector<scene::Guest> guests;
        for (std::size_t i = 0; i < names_.size(); ++i)
            guests.push_back(guest(group_.guests[i], names_[i]));
        for (std::size_t i = 0; i < names_.size(); ++i)
            if (std::find(names_.begin(), names_.begin() + static_cast<std::ptrdiff_t>(i),
                          names_[i]) != names_.begin() + static_cast<std::ptrdiff_t>(i))
                complain(names_[i], "two people have this name", "tell them apart");
        if (!problems_.empty())
            return tl::unexpected(problems_);
        return guests;
    }

private:
    void complain(const std::string& whose, std::string what, std::string mend) {
        problems_.push_back({{.file = whose}, std::move(what), std::move(mend)});
    }

    std::optional<double> number(const std::string& typed, Measure measure,
                                 const std::string& whose, const char* example) {
        std::string text = without_edges(typed);
        if (text.empty())
            return std::nullopt;
        if (measure == Measure::stature_m && group_.units == Units::imperial &&
            is_plain_number(text))
            text += " ft";
        const auto read = number_from_spelling(text, measure);
        if (read)
            return as_meant(*read, measure);
        complain(whose, fmt::format("“{}” is no number", text),
                 read.error().empty() ? fmt::format("write it as {}", example) : read.error());
        return std::nullopt;
    }

    std::string somebody(const std::string& typed, const std::string& whose, const char* what) {
        std::string name = without_edges(typed);
        if (!name.empty() && std::ranges::find(names_, name) == names_.end()) {
            complain(whose, fmt::format("{} “{}”, and nobody is called so", what, name),
                     "write a name of this list");
            name.clear();
        }
        return name;
    }

    scene::Guest guest(const TypedGuest& typed, const std::string& name) {
        scene::Guest guest{.name = name};
        guest.age_years = number(typed.age, Measure::plain, name, "34");
        guest.stature_m = number(typed.height, Measure::stature_m, name, "1.82 or 6 ft 2");
        guest.family = without_edges(typed.family);
        if (std::string with = somebody(typed.with, name, "stays beside"); !with.empty())
            guest.company.with = {std::move(with)};
        guest.company.celebrated = typed.is_celebrated;
        if (typed.bearing == Bearing::seated)
            guest.posture = figures::Posture::seated;
        if (typed.bearing == Bearing::kneeling)
            guest.posture = figures::Posture::kneeling;
        if (typed.bearing == Bearing::carried) {
            guest.carried_by = somebody(typed.carried_by, name, "is carried by");
            if (guest.carried_by.empty() && without_edges(typed.carried_by).empty())
                complain(name, "is carried, and nobody says by whom", "write a name beside it");
        }
        return guest;
    }

    const NewGroup& group_;
    std::vector<std::string> names_;
    std::vector<Problem> problems_;
};

std::optional<double> step_m(Footing footing) {
    switch (footing) {
    case Footing::ground:
        return std::nullopt;
    case Footing::steps:
        return 0.17;
    case Footing::high_steps:
        return 0.40;
    }
    return std::nullopt;
}

}  // namespace

Checked<BegunGroup> begin_group(const NewGroup& group) {
    auto known = Reader{group}.guests();
    if (!known)
        return tl::unexpected(known.error());
    arranging::GroupWishes wishes{.people = static_cast<int>(known->size()),
                                  .known = std::move(*known),
                                  .step_m = step_m(group.footing),
                                  .focal_length_mm = group.focal_length_mm,
                                  .f_number = group.f_number,
                                  .orientation = group.orientation,
                                  .use = group.use,
                                  .units = group.units};
    auto arranged = arranging::arrange(wishes);
    if (!arranged)
        return tl::unexpected(arranged.error());
    return BegunGroup{.text = scene_file::scene_toml(*arranged),
                      .choices = std::move(arranged->choices),
                      .cautions = std::move(arranged->cautions)};
}

std::string free_scene_path(const std::string& folder) {
    const std::filesystem::path in{folder};
    std::error_code ignored;
    for (int number = 1;; ++number) {
        const std::filesystem::path path =
            in / (number == 1 ? std::string{"group.toml"} : fmt::format("group {}.toml", number));
        if (!std::filesystem::exists(path, ignored))
            return path.string();
    }
}

}  // namespace backrow::rehearsal
