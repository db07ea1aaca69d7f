#include "rendering_options.h"

#include "choice.h"

void add_rendering(CLI::App& verb, int& samples, backrow::render::Quality& quality,
                   const std::string& about_samples) {
    using backrow::render::Quality;
    verb.add_option("--samples", samples, about_samples)->check(CLI::Range(1, 65536));
    add_choice<Quality>(
        verb, "--quality", quality,
        {{"draft", Quality::draft}, {"fine", Quality::fine}, {"reference", Quality::reference}},
        "How smooth the blur is");
}
