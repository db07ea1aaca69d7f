#include "running.h"

#include <catch2/catch.hpp>

#include <chrono>
#include <csignal>
#include <thread>

namespace backrow::command {
namespace {

// A picture that takes minutes, and a signal a second after it has begun. The demo's own picture of
// a thousand pixels across takes about a second to begin.
void check_stopped_by(int signal, int times = 1) {
    const Folder folder;
    folder.write("old.png", "precious");
    using Clock = std::chrono::steady_clock;
    const auto start = Clock::now();
    Clock::time_point sent{};
    const Ran ran =
        run(words("preview", demo("choir.toml"),
                  {"-o", folder / "old.png", "--linear", folder / "x.pfm", "--width", "3000",
                   "--quality", "reference"}),
            {.meanwhile = [&](pid_t program) {
                if (sent == Clock::time_point{} && Clock::now() - start > std::chrono::seconds{2}) {
                    sent = Clock::now();
                    ::kill(program, signal);
                }
            }});
    const std::chrono::duration<double> after = Clock::now() - sent;
    CHECK(ran.exit_code == 130);
    CHECK(after.count() < 5);
    CHECK(ran.out.empty());
    if (times == 1)
        CHECK(ran.err == "backrow: interrupted; nothing was written\n");
    CHECK(folder.entries() == std::vector<std::string>{"old.png"});
    CHECK(text_of(folder / "old.png") == "precious");
}

}  // namespace

TEST_CASE("Ctrl-C stops a long picture within seconds and leaves nothing", "[command][property]") {
    check_stopped_by(SIGINT);
}

TEST_CASE("a polite kill stops a long picture like Ctrl-C", "[command][property]") {
    check_stopped_by(SIGTERM);
}

TEST_CASE("a second Ctrl-C ends the program at once and leaves nothing either",
          "[command][property]") {
    check_stopped_by(SIGINT, 2);
}

}  // namespace backrow::command
