#pragma once

// A shell in front of a reader of the documents: at the top of a project that has the demo scenes,
// and with the program on its path.

#include "command/running.h"

#include <string>

namespace backrow::documents {

class Terminal {
public:
    Terminal();

    /// Both streams come back in out, as on a screen. Pictures are small and of few points of the
    /// lens where the line does not say how many: nothing that is printed depends on either.
    [[nodiscard]] command::Ran run(const std::string& line) const;

private:
    command::Folder folder_;
};

/// The line with what makes the pictures of `preview` and `strip` quick.
[[nodiscard]] std::string quickened(std::string line);

}  // namespace backrow::documents
