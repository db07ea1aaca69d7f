#include "arranging/wish_lists.h"

#include "base/spelt_number.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <string_view>
#include <utility>

namespace backrow::arranging {
namespace {

std::string_view trimmed(std::string_view text) {
    const auto first = text.find_first_not_of(" \t");
    return first == text.npos ? std::string_view{}
                              : text.substr(first, text.find_last_not_of(" \t") - first + 1);
}

/// What stands between the marks, without spaces round it; none for an empty text.
std::vector<std::string_view> parts_of(std::string_view text, char mark) {
    std::vector<std::string_view> parts;
    if (trimmed(text).empty())
        return parts;
    for (;;) {
        const std::size_t end = std::min(text.find(mark), text.size());
        parts.push_back(trimmed(text.substr(0, end)));
        if (end == text.size())
            return parts;
        text.remove_prefix(end + 1);
    }
}

/// Takes one list after another and keeps what each person is known for.
class Known {
public:
    void families(std::string_view text) {
        option_ = "--families";
        mend_ = "write names with commas between, and a semicolon before the next family";
        for (const std::string_view family : parts_of(text, ';')) {
            const std::vector<std::string_view> names = parts_of(family, ',');
            if (names.empty())
                complain("a family has no names");
            for (const std::string_view name : names)
                if (scene::Guest* guest = met(name))
                    say(guest->family, std::string{names.front()},
                        fmt::format("`{}` is in two families", name));
        }
    }

    void couples(std::string_view text) {
        option_ = "--couples";
        mend_ = "write both names with a plus between: Anna+Ben";
        for (const std::string_view couple : parts_of(text, ',')) {
            const std::vector<std::string_view> names = parts_of(couple, '+');
            if (names.size() < 2)
                complain(fmt::format("`{}` alone is no couple", couple));
            for (std::size_t i = 0; i + 1 < names.size(); ++i)
                if (met(names[i + 1]) != nullptr)
                    if (scene::Guest* guest = met(names[i]))
                        guest->company.with.emplace_back(names[i + 1]);
        }
    }

    void ages(std::string_view text) {
        option_ = "--ages";
        mend_ = "write the name and the years: Anna=71";
        for_each_pair(text, [&](scene::Guest& guest, std::string_view years) {
            const auto age = number_from_spelling(years, Measure::plain);
            if (!age)
                complain(fmt::format("`{}` is no age", years));
            else
                say(guest.age_years, *age, fmt::format("`{}` has two ages", guest.name));
        });
    }

    void postures(const char* option, std::string_view text, figures::Posture posture) {
        option_ = option;
        mend_ = "write names with commas between";
        for (const std::string_view name : parts_of(text, ','))
            if (scene::Guest* guest = met(name))
                say(guest->posture, posture, fmt::format("`{}` sits and kneels", name));
    }

    void carried(std::string_view text) {
        option_ = "--carried";
        mend_ = "write the child and who carries it: Mia=Anna";
        for_each_pair(text, [&](scene::Guest& child, std::string_view carrier) {
            const std::string name = child.name;
            if (met(carrier) != nullptr)
                say(met(name)->carried_by, std::string{carrier},
                    fmt::format("`{}` is carried by two", name));
        });
    }

    void celebrated(std::string_view text) {
        option_ = "--celebrated";
        mend_ = "write names with commas between";
        for (const std::string_view name : parts_of(text, ','))
            if (scene::Guest* guest = met(name))
                guest->company.celebrated = true;
    }

    [[nodiscard]] Checked<std::vector<scene::Guest>> take() && {
        if (!problems_.empty())
            return tl::unexpected(std::move(problems_));
        return std::move(guests_);
    }

private:
    void complain(std::string what) {
        problems_.push_back({{.file = option_}, std::move(what), mend_});
    }

    /// Null, and a complaint, where there is no name. Goes with the next that is met.
    scene::Guest* met(std::string_view name) {
        if (name.empty()) {
            complain("a name is missing");
            return nullptr;
        }
        const auto known = std::ranges::find(guests_, name, &scene::Guest::name);
        return known != guests_.end()
                   ? &*known
                   : &guests_.emplace_back(scene::Guest{.name = std::string{name}});
    }

    template <class Each>
    void for_each_pair(std::string_view text, Each each) {
        for (const std::string_view pair : parts_of(text, ',')) {
            const std::vector<std::string_view> sides = parts_of(pair, '=');
            if (sides.size() != 2 || sides[1].empty())
                complain(fmt::format("`{}` is not two things with an equals sign between", pair));
            else if (scene::Guest* guest = met(sides[0]))
                each(*guest, sides[1]);
        }
    }

    void say(std::string& of, std::string now, std::string otherwise) {
        if (!of.empty() && of != now)
            complain(std::move(otherwise));
        of = std::move(now);
    }
    template <class Value>
    void say(std::optional<Value>& of, Value now, std::string otherwise) {
        if (of && *of != now)
            complain(std::move(otherwise));
        of = now;
    }

    const char* option_ = "";
    std::string mend_;
    std::vector<scene::Guest> guests_;
    std::vector<Problem> problems_;
};

}  // namespace

Checked<std::vector<scene::Guest>> known_from(const WishLists& lists) {
    Known known;
    known.families(lists.families);
    known.couples(lists.couples);
    known.ages(lists.ages);
    known.postures("--seated", lists.seated, figures::Posture::seated);
    known.postures("--kneeling", lists.kneeling, figures::Posture::kneeling);
    known.carried(lists.carried);
    known.celebrated(lists.celebrated);
    return std::move(known).take();
}

}  // namespace backrow::arranging
