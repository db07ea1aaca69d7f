#include "window/pictures/saved_picture.h"

#include "../scene_file/scene_folder.h"
#include "awaited.h"
#include "base/image_files.h"
#include "two_people.h"

#include <filesystem>
#include <fstream>
#include <iterator>

using namespace backrow;
using namespace backrow::window;

namespace {

std::shared_ptr<const scene::Scene> shared_two() {
    return std::make_shared<const scene::Scene>(two_people());
}

SavedPicture::End end_of(SavedPicture& saving) {
    return awaited([&] { return saving.end(); });
}

}  // namespace

TEST_CASE("a picture saved from the window is the preview's file", "[window][property]") {
    const scene_file::SceneFolder folder;
    const std::string path = folder.write("duo.png", "");
    SavedPicture saving{shared_two(), path, 120, [] {}};
    const auto end = end_of(saving);
    CHECK(end.is_saved);
    CHECK(end.line == "Saved duo.png");
    const auto view = camera_view(two_people());
    const Bytes wanted = png_bytes(previewed(two_people(), render::whole_frame(view, 120)));
    std::ifstream file{path, std::ios::binary};
    const std::string bytes{std::istreambuf_iterator<char>{file}, {}};
    CHECK(bytes == std::string{reinterpret_cast<const char*>(wanted.data()), wanted.size()});
}

TEST_CASE("a picture that is stopped leaves the file that was there", "[window][property]") {
    const scene_file::SceneFolder folder;
    const std::string path = folder.write("duo.png", "what was there");
    SavedPicture saving{shared_two(), path, 4000, [] {}};
    saving.cancel();
    const auto end = end_of(saving);
    CHECK_FALSE(end.is_saved);
    CHECK(end.line == "The picture was not saved: stopped.");
    std::string text;
    std::getline(std::ifstream{path}, text);
    CHECK(text == "what was there");
}

TEST_CASE("a picture for which there is no folder is refused before the long work",
          "[window][property]") {
    SavedPicture saving{shared_two(), "/no/such/folder/duo.png", 4000, [] {}};
    const auto end = end_of(saving);
    CHECK_FALSE(end.is_saved);
    CHECK_THAT(end.line, Catch::Contains("/no/such/folder"));
    CHECK(saving.share() == 1);
}
