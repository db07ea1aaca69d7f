#include "delivery/give_away.h"

#include "delivery/outputs.h"

#include "base/files_read.h"
#include "base/utf8.h"
#include "base/whole_files.h"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <system_error>
#include <utility>

namespace backrow::delivery {
namespace {

namespace fs = std::filesystem;

std::vector<std::size_t> wanted_of(const Choices& choices) {
    std::vector<std::size_t> wanted;
    for (std::size_t i = 0; i < choices.pieces.size(); ++i)
        if (choices.pieces[i].is_wanted)
            wanted.push_back(i);
    return wanted;
}

std::string path_of(const Choices& choices, std::size_t i) {
    return (fs::path{choices.folder} / file_name(choices, i)).string();
}

/// A file's name alone, which a folder listing shows.
bool is_plain_name(const std::string& name) {
    return name.find('/') == name.npos && name.front() != '.' && is_utf8(name) &&
           std::ranges::none_of(code_points(name), is_control);
}

}  // namespace

std::vector<std::string> paths_of(const Choices& choices) {
    std::vector<std::string> paths;
    for (const std::size_t i : wanted_of(choices))
        paths.push_back(path_of(choices, i));
    return paths;
}

std::vector<std::string> standing_already(const Choices& choices) {
    std::vector<std::string> paths = paths_of(choices);
    std::erase_if(paths, [](const std::string& path) {
        std::error_code none;
        return !fs::exists(path, none);
    });
    return paths;
}

std::optional<NotMade> hindrance(const Choices& choices) {
    const auto problem = [](std::string what, std::string mend) {
        return NotMade{Problem{{}, std::move(what), std::move(mend)}};
    };
    const std::vector<std::size_t> wanted = wanted_of(choices);
    if (wanted.empty())
        return problem("nothing is ticked", "tick what is to be given away");
    if (choices.folder.empty())
        return problem("no folder is chosen", "choose one");
    std::vector<std::string> names;
    for (const std::size_t i : wanted) {
        std::string name = file_name(choices, i);
        if (!is_plain_name(name))
            return problem(fmt::format("“{}” is no name for a file", on_one_line(name)),
                           "begin with a letter or a figure, and leave out strokes");
        if (std::ranges::find(names, name) != names.end())
            return problem(fmt::format("two files would be called {}", name),
                           "give one of them another name");
        names.push_back(std::move(name));
    }
    for (const std::string& path : paths_of(choices)) {
        if (const auto writable = check_writable(path); !writable)
            return NotMade{writable.error()};
        if (was_read(path))
            return problem(path + " is the scene or something in it", "choose another name");
    }
    return std::nullopt;
}

tl::expected<std::vector<std::string>, NotMade> give_away(const scene::Scene& scene,
                                                          const Choices& choices,
                                                          const Asked& asked,
                                                          const WholeProgress& progress) {
    if (auto why = hindrance(choices))
        return tl::make_unexpected(std::move(*why));
    Workshop shop{scene, choices, asked};
    const std::vector<std::size_t> wanted = wanted_of(choices);
    double work_s = 0;
    for (const std::size_t i : wanted)
        work_s += outputs()[i].work_s(shop);

    PendingFiles files;
    double worked_s = 0;
    for (const std::size_t i : wanted) {
        const Output& output = outputs()[i];
        const double its_work_s = output.work_s(shop);
        const auto tell = [&](double done) {
            return progress((worked_s + its_work_s * done) / work_s, output.words);
        };
        if (!tell(0))
            return tl::make_unexpected(NotMade{render::Stopped{}});
        const auto bytes = output.make(shop, tell);
        if (!bytes)
            return tl::make_unexpected(bytes.error());
        worked_s += its_work_s;
        if (!tell(0))
            return tl::make_unexpected(NotMade{render::Stopped{}});
        if (const auto aside = files.add(path_of(choices, i), *bytes); !aside)
            return tl::make_unexpected(NotMade{aside.error()});
    }
    // Something in the scene, such as a model's texture, may only have been read by now.
    if (auto why = hindrance(choices))
        return tl::make_unexpected(std::move(*why));
    if (const auto kept = files.keep(); !kept)
        return tl::make_unexpected(NotMade{kept.error()});
    return paths_of(choices);
}

}  // namespace backrow::delivery
