#pragma once

// What every verb that reads a scene takes: the file, --set, --judge and the rest.

#include "scene/scene.h"

#include "base/length_words.h"
#include "base/problem.h"

#include <CLI/CLI.hpp>

#include <optional>
#include <string>
#include <vector>

enum class TableFormat { text, json, csv };

/// A report in the format that was asked for, by the three functions that write it.
template <class Report>
[[nodiscard]] std::string
in_format(TableFormat format, const Report& report, std::string (*text)(const Report&),
          std::string (*json)(const Report&), std::string (*csv)(const Report&)) {
    switch (format) {
    case TableFormat::json:
        return json(report);
    case TableFormat::csv:
        return csv(report);
    case TableFormat::text:
        break;
    }
    return text(report);
}

/// Declares --format.
void add_format(CLI::App& verb, TableFormat& format);
/// Declares --set.
CLI::Option* add_set(CLI::App& verb, std::vector<std::string>& overrides);
/// Declares --units.
void add_units(CLI::App& verb, backrow::Units& units);

struct SceneArguments {
    std::string path;
    std::vector<std::string> overrides;
    TableFormat format = TableFormat::text;
    std::optional<backrow::scene::Judge> judge{};
    backrow::Units units = backrow::Units::metric;

    /// Declares the options on a verb.
    void add_to(CLI::App& verb);
    /// Without --format, for a verb that prints no table.
    void add_without_format(CLI::App& verb);
    [[nodiscard]] backrow::Checked<backrow::scene::Scene> read() const;
};
