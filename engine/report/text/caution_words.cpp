#include "report/text/caution_words.h"

#include <fmt/format.h>

namespace backrow::report {

std::string caution_lines(const std::vector<plan::Caution>& cautions) {
    std::string lines = cautions.empty() ? "" : "\n";
    for (const std::string& sentence : caution_sentences(cautions))
        lines += fmt::format("Mind: {}\n", sentence);
    return lines;
}

std::vector<std::string> caution_sentences(const std::vector<plan::Caution>& cautions) {
    std::vector<std::string> sentences;
    for (const plan::Caution caution : cautions)
        sentences.push_back(to_words(caution));
    return sentences;
}

}  // namespace backrow::report
