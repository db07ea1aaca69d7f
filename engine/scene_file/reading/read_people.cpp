// [[row]] and [[person]]: who is in the picture and where everybody stands.

#include "scene_file/reading/scene_draft.h"

#include "scene/limits.h"
#include "scene/person_words.h"
#include "scene/row_place.h"
#include "scene_file/reading/read_details.h"
#include "scene_file/reading/read_scene.h"
#include "scene_file/scene_keys.h"

#include "scene_file/toml/near_miss.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>
#include <set>

namespace backrow::scene_file {
namespace {

bool check_name(const toml::node& node, TableReader& reader) {
    const auto complain = [&](std::string what, std::string mend) {
        reader.complain(place_of(node), std::move(what), std::move(mend));
        return false;
    };
    if (!node.is_string())
        return complain(fmt::format("a name is text, not {}", kind_of(node)),
                        "write it in quotation marks");
    if (auto fault = scene::fault_of_name(node.as_string()->get()))
        return complain(std::move(fault->what), std::move(fault->mend));
    return true;
}

/// A line of people as written: where it stands and who stands in it.
struct Row {
    double back_m = 0;
    double up_m = 0;
    double spacing_m = 0.55;
    bool stagger = false;
    std::vector<std::string> people;
    std::vector<Place> places;
};

// "In line 30", or in which override.
std::string where_before(const Place& before) {
    return before.line == 0 ? before.file : fmt::format("line {}", before.line);
}

class Roster {
public:
    /// False, and a complaint, where somebody is there already or the picture is full.
    bool admit(const std::string& name, const Place& place, TableReader& reader) {
        const auto [first, is_new] = places_.try_emplace(name, place);
        if (!is_new) {
            reader.complain(
                place,
                fmt::format("`{}` stands in a row already ({})", name, where_before(first->second)),
                "nobody stands in two places; give namesakes different names");
            return false;
        }
        if (places_.size() > static_cast<std::size_t>(scene::limits::most_people)) {
            if (!full_)
                reader.complain(
                    place, fmt::format("more than {} people", scene::limits::most_people),
                    fmt::format("this program goes up to {}", scene::limits::most_people));
            full_ = true;
        }
        return !full_;
    }
    [[nodiscard]] bool is_full() const noexcept { return full_; }

private:
    std::map<std::string, Place, std::less<>> places_;
    bool full_ = false;
};

Row read_row(TableReader& table, Roster& roster) {
    Row row;
    table.read(keys::back_m, row.back_m);
    table.read(keys::up_m, row.up_m);
    table.read(keys::spacing_m, row.spacing_m);
    table.read("stagger", row.stagger);
    const toml::array* people = table.list("people");
    table.refuse_unknown_keys();

    if (people == nullptr) {
        if (table.find("people") == nullptr)
            table.complain(table.place(), "this row has no people",
                           "write people = [\"…\", \"…\"] from picture left to right");
        return row;
    }
    if (people->empty())
        table.complain(place_of(*people), "this row has no people", "write at least one name");
    for (const toml::node& node : *people) {
        if (roster.is_full())
            break;
        if (!check_name(node, table))
            continue;
        const std::string& name = node.as_string()->get();
        if (roster.admit(name, place_of(node), table)) {
            row.people.push_back(name);
            row.places.push_back(place_of(node));
        }
    }
    return row;
}

scene::FromMark place_in_row(const Row& row, std::size_t index) {
    return {.across_m =
                scene::across_in_row_m(index, row.people.size(), row.spacing_m, row.stagger),
            .up_m = row.up_m,
            .back_m = row.back_m};
}

scene::Person person_at(const std::string& name, const scene::FromMark& base,
                        const Details& details, int row) {
    const scene::FromMark& offset = details.offset;
    return {.name = name,
            .place = {.across_m = base.across_m + offset.across_m,
                      .up_m = base.up_m + offset.up_m,
                      .back_m = base.back_m + offset.back_m},
            .measures = details.measures,
            .pose = details.pose,
            .styling = details.styling,
            .gaze = details.gaze,
            .speed_mps = details.speed_mps,
            .heading_deg = details.heading_deg,
            .row = row,
            .own = offset,
            .company = details.company};
}

void note_company(const Details& details, SceneDraft& draft) {
    for (std::size_t i = 0; i < details.with_at.size(); ++i)
        draft.beside.push_back(
            {.person = draft.scene.people.size(), .which = i, .at = details.with_at[i]});
}

// The middle one of the front row is whom a photographer would focus on unasked.
scene::Focus default_focus(const std::vector<scene::Person>& people, const std::vector<Row>& rows) {
    const Row* front = nullptr;
    for (const Row& row : rows)
        if (!row.people.empty() && (front == nullptr || row.back_m < front->back_m))
            front = &row;
    if (front != nullptr)
        return scene::FocusOnPerson{front->people[front->people.size() / 2]};
    return people.empty() ? scene::FocusOnPerson{} : scene::FocusOnPerson{people.front().name};
}

}  // namespace

void read_people(TableReader& root, SceneDraft& draft) {
    Roster roster;
    std::vector<Row> rows;
    for (TableReader& table : root.tables("row"))
        rows.push_back(read_row(table, roster));

    std::map<std::string, Details, std::less<>> details;
    std::vector<std::string> in_order;
    for (TableReader& table : root.tables("person")) {
        const toml::node* name = table.find("name");
        Details read = read_details(table);
        if (name == nullptr) {
            table.complain(table.place(), "[[person]] lacks `name`", "write whom it is about");
            continue;
        }
        if (!check_name(*name, table))
            continue;
        const std::string& text = name->as_string()->get();
        read.name = place_of(*name);
        const auto [entry, is_new] = details.try_emplace(text, read);
        if (is_new)
            in_order.push_back(text);
        else
            table.complain(read.name,
                           fmt::format("a second [[person]] is called `{}` (the first: {})", text,
                                       where_before(entry->second.name)),
                           "put everything about one person in one place");
    }

    Details unremarkable;
    unremarkable.measures = scene::measures_of(std::nullopt, std::nullopt, figures::Sex::neutral);
    std::set<std::string, std::less<>> placed;
    std::vector<scene::Person>& people = draft.scene.people;
    for (std::size_t r = 0; r < rows.size(); ++r)
        for (std::size_t i = 0; i < rows[r].people.size(); ++i) {
            const std::string& name = rows[r].people[i];
            const auto found = details.find(name);
            if (found != details.end() && !found->second.carried_by.empty())
                root.complain(found->second.carried_by_at,
                              fmt::format("`{}` stands in a row and is carried as well", name),
                              "take the name out of the row, or leave out carried_by");
            const Details& said = found == details.end() ? unremarkable : found->second;
            note_company(said, draft);
            people.push_back(person_at(name, place_in_row(rows[r], i), said, static_cast<int>(r)));
            draft.places.people.push_back(rows[r].places[i]);
            placed.insert(name);
        }
    for (const std::string& name : in_order) {
        const Details& alone = details.find(name)->second;
        if (placed.contains(name) || roster.is_full() || !roster.admit(name, alone.name, root))
            continue;
        if (!alone.carried_by.empty())
            draft.carried.push_back({people.size(), alone.carried_by, alone.carried_by_at});
        note_company(alone, draft);
        people.push_back(person_at(name, {}, alone, -1));
        draft.places.people.push_back(alone.name);
    }

    if (!draft.has_focus)
        draft.scene.focus = default_focus(people, rows);
}

std::vector<std::string_view> names_of(const std::vector<scene::Person>& people) {
    std::vector<std::string_view> names;
    for (const scene::Person& person : people)
        names.push_back(person.name);
    return names;
}

}  // namespace backrow::scene_file
