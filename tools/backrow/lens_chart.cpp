// backrow lens chart: the chart that `lens measure` finds its edges in, to print.

#include "choice.h"
#include "console.h"
#include "lens_verbs.h"
#include "output_file.h"

#include "report/lens/test_chart.h"

#include <fmt/format.h>

#include <memory>
#include <string>

namespace {

using namespace backrow;

struct ChartArguments {
    std::string output;
    report::Paper paper = report::Paper::a4;
};

ExitCode lens_chart(const ChartArguments& arguments) {
    if (const ExitCode code = check({{"-o", arguments.output, {".pdf"}}}); code != ExitCode::done)
        return code;
    return console::deliver(arguments.output, report::test_chart_pdf(arguments.paper));
}

}  // namespace

void add_lens_chart(CLI::App& lens, ExitCode& result) {
    auto* verb = lens.add_subcommand("chart", "The chart to photograph, to print at full size");
    verb->footer("Example: backrow lens chart -o chart.pdf --paper letter");
    const auto arguments = std::make_shared<ChartArguments>();
    add_output_file(*verb, "-o,--output", arguments->output, "The chart, with how to shoot it",
                    "OUT.pdf")
        ->required();
    add_choice<report::Paper>(*verb, "--paper", arguments->paper,
                              {{"a4", report::Paper::a4}, {"letter", report::Paper::letter}},
                              "The sheet, lying across: a4 or letter");
    verb->callback([arguments, &result] { result = lens_chart(*arguments); });
}
