#include "running.h"

#include <fcntl.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <csignal>
#include <cstdlib>
#include <fstream>
#include <iterator>
#include <stdexcept>
#include <thread>

namespace backrow::command {
namespace {

namespace fs = std::filesystem;
using Clock = std::chrono::steady_clock;

void point(int stream, const std::string& at) {
    const int file = ::open(at.c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0600);
    ::dup2(file, stream);
    ::close(file);
}

// In the child; returns only where the program could not be started.
void become(const Words& arguments, const Circumstances& circumstances, const Folder& streams) {
    point(STDOUT_FILENO,
          circumstances.stdout_to.empty() ? streams / "out" : circumstances.stdout_to);
    point(STDERR_FILENO, streams / "err");
    if (circumstances.stdout_closed)
        ::close(STDOUT_FILENO);
    for (const auto& [name, value] : circumstances.environment)
        ::setenv(name.c_str(), value.c_str(), 1);
    if (circumstances.largest_file_bytes != RLIM_INFINITY) {
        const rlimit limit{circumstances.largest_file_bytes, circumstances.largest_file_bytes};
        ::setrlimit(RLIMIT_FSIZE, &limit);
    }
    if (circumstances.most_memory_bytes != RLIM_INFINITY) {
        const rlimit limit{circumstances.most_memory_bytes, circumstances.most_memory_bytes};
        ::setrlimit(RLIMIT_AS, &limit);
    }
    if (!circumstances.folder.empty() && ::chdir(circumstances.folder.c_str()) != 0)
        return;
    std::vector<char*> argv{const_cast<char*>(circumstances.program.c_str())};
    for (const std::string& argument : arguments)
        argv.push_back(const_cast<char*>(argument.c_str()));
    argv.push_back(nullptr);
    ::execv(argv[0], argv.data());
}

}  // namespace

Folder::Folder() {
    std::string pattern = (fs::temp_directory_path() / "backrow-command-XXXXXX").string();
    if (::mkdtemp(pattern.data()) == nullptr)
        throw std::runtime_error("no temporary folder");
    path_ = pattern;
}

Folder::~Folder() {
    std::error_code ignored;
    fs::remove_all(path_, ignored);
}

std::string Folder::write(const std::string& name, const std::string& text) const {
    std::ofstream{path_ / name, std::ios::binary} << text;
    return *this / name;
}

std::vector<std::string> Folder::entries() const {
    std::vector<std::string> names;
    for (const auto& entry : fs::directory_iterator{path_})
        names.push_back(entry.path().filename().string());
    std::ranges::sort(names);
    return names;
}

Ran run(const Words& arguments, const Circumstances& circumstances) {
    const Folder streams;
    const auto start = Clock::now();
    const pid_t child = ::fork();
    if (child < 0)
        throw std::runtime_error("cannot fork");
    if (child == 0) {
        become(arguments, circumstances, streams);
        ::_exit(127);
    }
    int status = 0;
    rusage used{};
    while (::wait4(child, &status, WNOHANG, &used) == 0) {
        circumstances.meanwhile(child);
        if (Clock::now() - start > circumstances.limit)
            ::kill(child, SIGKILL);
        std::this_thread::sleep_for(std::chrono::milliseconds{2});
    }
    constexpr long kb_in_a_mb = 1024;
    return {.exit_code = WIFEXITED(status) ? WEXITSTATUS(status) : -1,
            .out = text_of(streams / "out"),
            .err = text_of(streams / "err"),
            .most_memory_mb = used.ru_maxrss / kb_in_a_mb};
}

Words words(const std::string& verb, const std::string& scene, const Words& more) {
    Words all{verb, scene};
    all.insert(all.end(), more.begin(), more.end());
    return all;
}

std::string text_of(const std::string& file) {
    std::ifstream stream{file, std::ios::binary};
    return {std::istreambuf_iterator<char>{stream}, {}};
}

std::string demo(const std::string& name) {
    return BACKROW_SOURCE_DIR "/scenes/" + name;
}

std::string two_thousand_people() {
    std::string text = "[camera]\ndistance_m = 25\nfocal_length_mm = 24\n";
    for (int row = 0; row < 40; ++row) {
        text += "[[row]]\nspacing_m = 0.6\nback_m = " + std::to_string(row) + "\npeople = [";
        for (int i = 0; i < 50; ++i)
            text += "\"P" + std::to_string(50 * row + i) + "\",";
        text += "]\n";
    }
    return text;
}

}  // namespace backrow::command
