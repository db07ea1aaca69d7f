#include "report/text/number_words.h"

#include <fmt/format.h>

namespace backrow::report {

std::string two_digits(double number) {
    if (number < 0.0005)
        return "0";
    // What rounds up to a further place is written like its neighbours there: 9.96 as 10.
    int decimals = 0;
    for (double edge = 9.95; number < edge && decimals < 4; edge /= 10)
        ++decimals;
    return fmt::format("{:.{}f}", number, decimals);
}

}  // namespace backrow::report
