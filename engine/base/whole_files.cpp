#include "base/whole_files.h"

#include "base/missing_folder.h"

#include <fmt/format.h>

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <atomic>
#include <cerrno>
#include <cstring>
#include <filesystem>
#include <system_error>

namespace backrow {
namespace {

namespace fs = std::filesystem;

tl::unexpected<MachineFailure> refused(const std::string& path, int error) {
    if (const fs::path folder = missing_folder(path); error == ENOENT && !folder.empty())
        return tl::make_unexpected(MachineFailure{
            fmt::format("cannot write {}: there is no folder {}", path, folder.string()),
            "make it, or choose another place"});
    return tl::make_unexpected(
        MachineFailure{fmt::format("cannot write {}: {}", path, std::strerror(error)),
                       "choose another place or make room"});
}

// A link is followed, so that the file it points to is replaced and the link stays.
fs::path target_of(const std::string& path) {
    std::error_code none;
    const fs::path resolved = fs::canonical(path, none);
    return none ? fs::path{path} : resolved;
}

bool is_device_or_pipe(const fs::path& path) {
    std::error_code none;
    const auto kind = fs::status(path, none).type();
    return !none && (kind == fs::file_type::character || kind == fs::file_type::block ||
                     kind == fs::file_type::fifo || kind == fs::file_type::socket);
}

// Rights of the file that stood here; without one, those that the system gave the new file.
int take_rights_of(const fs::path& path, int file) {
    struct stat before {};
    const bool stood_here = ::stat(path.c_str(), &before) == 0;
    return stood_here && ::fchmod(file, before.st_mode & 07777) != 0 ? errno : 0;
}

int write_all(int file, std::span<const std::byte> bytes) {
    while (!bytes.empty()) {
        const ssize_t written = ::write(file, bytes.data(), bytes.size());
        if (written < 0) {
            if (errno == EINTR)
                continue;
            return errno;
        }
        bytes = bytes.subspan(static_cast<std::size_t>(written));
    }
    return 0;
}

struct Aside {
    int file = -1;
    std::string name;
};

Made<Aside> open_aside(const std::string& path) {
    const fs::path target = target_of(path);
    if (fs::is_directory(target))
        return refused(path, EISDIR);
    // A rename would replace even a file that is protected from writing.
    if (::access(target.c_str(), F_OK) == 0 && ::access(target.c_str(), W_OK) != 0)
        return refused(path, errno);
    const fs::path folder = target.has_parent_path() ? target.parent_path() : fs::path{"."};
    // Opened as any new file is, so that the system gives it the rights that the user wants.
    static std::atomic<unsigned> opened{0};
    for (;;) {
        std::string name = (folder / fmt::format(".backrow-{}-{}", ::getpid(), opened++)).string();
        const int file = ::open(name.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
        if (file >= 0)
            return Aside{file, std::move(name)};
        if (errno != EEXIST)
            return refused(path, errno);
    }
}

}  // namespace

Made<void> check_writable(const std::string& path) {
    if (is_device_or_pipe(path))
        return {};
    auto aside = open_aside(path);
    if (!aside)
        return tl::make_unexpected(aside.error());
    ::close(aside->file);
    ::unlink(aside->name.c_str());
    return {};
}

PendingFiles::~PendingFiles() {
    for (const Pending& pending : files_)
        if (!pending.aside.empty())
            ::unlink(pending.aside.c_str());
}

Made<void> PendingFiles::add(const std::string& path, std::span<const std::byte> bytes) {
    if (is_device_or_pipe(path)) {
        files_.push_back({{}, path, {bytes.begin(), bytes.end()}});
        return {};
    }
    auto aside = open_aside(path);
    if (!aside)
        return tl::make_unexpected(aside.error());
    files_.push_back({aside->name, target_of(path).string(), {}});
    int error = write_all(aside->file, bytes);
    if (error == 0)
        error = take_rights_of(files_.back().path, aside->file);
    if (error == 0 && ::fsync(aside->file) != 0)
        error = errno;
    if (::close(aside->file) != 0 && error == 0)
        error = errno;
    if (error != 0)
        return refused(path, error);
    return {};
}

Made<void> PendingFiles::add(const std::string& path, std::string_view text) {
    return add(path, std::as_bytes(std::span{text.data(), text.size()}));
}

// Devices first: they refuse more often than a rename does, and then nothing is in place yet.
Made<void> PendingFiles::keep() {
    for (const Pending& pending : files_) {
        if (!pending.aside.empty())
            continue;
        const int file = ::open(pending.path.c_str(), O_WRONLY | O_CLOEXEC);
        const int error = file < 0 ? errno : write_all(file, pending.bytes);
        if (file >= 0)
            ::close(file);
        if (error != 0)
            return refused(pending.path, error);
    }
    std::erase_if(files_, [](const Pending& pending) { return pending.aside.empty(); });
    while (!files_.empty()) {
        const Pending& pending = files_.back();
        if (::rename(pending.aside.c_str(), pending.path.c_str()) != 0)
            return refused(pending.path, errno);
        files_.pop_back();
    }
    return {};
}

}  // namespace backrow
