#pragma once

// The picture at full quality, made and saved in the background while the rehearsal goes on.

#include "scene/scene.h"

#include "base/problem.h"

#include <atomic>
#include <functional>
#include <future>
#include <memory>
#include <optional>
#include <string>

namespace backrow::window {

class SavedPicture {
public:
    /// Starts at once; with a studio of its own, what `preview` would make of the scene.
    ///
    /// wake  called from its thread whenever there is something to show
    SavedPicture(std::shared_ptr<const scene::Scene> scene, std::string path, int width_texels,
                 std::function<void()> wake);
    ~SavedPicture();  ///< Stops it; then nothing is written.
    SavedPicture(const SavedPicture&) = delete;
    SavedPicture& operator=(const SavedPicture&) = delete;

    [[nodiscard]] const std::string& path() const noexcept { return path_; }
    [[nodiscard]] double share() const noexcept { return share_; }
    void cancel() noexcept { is_cancelled_ = true; }

    struct End {
        std::string line;  ///< What became of it.
        bool is_saved = false;
    };
    /// Nothing while it goes on.
    [[nodiscard]] std::optional<End> end();

private:
    std::string path_;
    std::atomic<double> share_ = 0;
    std::atomic<bool> is_cancelled_ = false;
    std::future<End> work_;
};

}  // namespace backrow::window
