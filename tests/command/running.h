#pragma once

// The program as its user meets it: a command line in; exit code, both streams and files out.

#include <sys/resource.h>
#include <sys/types.h>

#include <chrono>
#include <filesystem>
#include <functional>
#include <string>
#include <utility>
#include <vector>

namespace backrow::command {

using Words = std::vector<std::string>;

/// A folder for one test, gone with it.
class Folder {
public:
    Folder();
    ~Folder();
    Folder(const Folder&) = delete;
    Folder& operator=(const Folder&) = delete;

    [[nodiscard]] std::string operator/(const std::string& name) const {
        return (path_ / name).string();
    }
    std::string write(const std::string& name, const std::string& text) const;
    /// Names of everything in it, hidden files too, in order.
    [[nodiscard]] std::vector<std::string> entries() const;

private:
    std::filesystem::path path_;
};

/// How a run differs from the plainest one.
struct Circumstances {
    std::string program = BACKROW_PROGRAM;
    std::string folder{};  ///< Where it is started; empty: here.
    std::vector<std::pair<std::string, std::string>> environment{};  ///< Set besides what is set.
    std::string stdout_to{};  ///< A file or device to which stdout goes instead.
    bool stdout_closed = false;
    rlim_t largest_file_bytes = RLIM_INFINITY;  ///< Beyond it, writing fails as on a full disk.
    rlim_t most_memory_bytes = RLIM_INFINITY;   ///< Of addresses, as `ulimit -v` counts them.
    std::chrono::seconds limit{60};             ///< A run that takes longer is killed.
    /// Called often while the program runs.
    std::function<void(pid_t)> meanwhile = [](pid_t) {};
};

struct Ran {
    int exit_code = -1;  ///< −1 where a signal ended it, ours after the limit or another.
    std::string out;
    std::string err;
    long most_memory_mb = 0;
};

[[nodiscard]] Ran run(const Words& arguments, const Circumstances& circumstances = {});

/// The words of a verb, a scene and more words.
[[nodiscard]] Words words(const std::string& verb, const std::string& scene,
                          const Words& more = {});

[[nodiscard]] std::string text_of(const std::string& file);

/// A demo scene of the source tree.
[[nodiscard]] std::string demo(const std::string& name);

/// As many people as a scene may hold, in rows of fifty: a scene file's text.
[[nodiscard]] std::string two_thousand_people();

}  // namespace backrow::command
