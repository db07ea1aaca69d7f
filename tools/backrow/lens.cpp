// backrow lens: what a lens does, out of frames that were taken with it.

#include "lens_verbs.h"
#include "verbs.h"

void add_lens(CLI::App& program, ExitCode& result) {
    auto* verb = program.add_subcommand("lens", "Know your own lens: measured from test frames");
    verb->require_subcommand(1);
    verb->footer("Example: backrow lens measure frame.png");
    add_lens_measure(*verb, result);
    add_lens_chart(*verb, result);
}
