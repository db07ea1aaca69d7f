#pragma once

// A scene file that another hand writes too, by lot: values, remarks, what cannot be read, nothing.

#include "scene_file/editing/edit_scene_text.h"
#include "scene_file/reading/read_scene.h"

#include "../base/lot.h"
#include "nothing_lost.h"

#include <array>
#include <filesystem>
#include <fstream>
#include <string>
#include <utility>

namespace backrow::rehearsal {

class FileByLot {
public:
    explicit FileByLot(std::string path) : path_{std::move(path)} {}

    [[nodiscard]] const std::string& path() const { return path_; }
    /// That it must have now; empty where there is none.
    [[nodiscard]] const std::string& text() const { return text_; }
    /// Since it was last read or written by us.
    [[nodiscard]] const Told& set_by_others() const { return set_by_others_; }
    [[nodiscard]] bool has_only_values_by_others() const { return has_only_values_by_others_; }

    /// By us.
    void is_written(const std::string& text) {
        text_ = text;
        is_known();
    }
    /// What others wrote was taken in, or overruled.
    void is_known() {
        set_by_others_.clear();
        has_only_values_by_others_ = true;
    }

    void change(Lot& lot) {
        const std::array<const char*, 9> values{
            "camera.f_number=5.6",         "camera.iso=400",        "camera.height_m=1.1",
            "camera.focal_length_mm=60.0", "camera.distance_m=6.5", "camera.shutter_s=0.004",
            "light.sun_azimuth_deg=200.0", "odds.delay_s=0.15",     "light.scene_ev100=9.0"};
        const double share = lot.between(0, 1);
        if (share < 0.6) {
            const std::string value = lot.one_of(values);
            const auto changed = scene_file::with_values(text_, path_, {value});
            if (!changed || *changed == text_ || !scene_file::read_scene_text(*changed, path_))
                return;
            set_by_others_[value.substr(0, value.find('='))] = value.substr(value.find('=') + 1);
            write(*changed);
        } else if (share < 0.85 && !text_.empty()) {
            write("# by another hand\n" + text_ + "\n# and here");
        } else {
            has_only_values_by_others_ = false;
            if (share < 0.9)
                write(text_.substr(0, lot.below(text_.size() + 1)) + "[[[");
            else if (share < 0.95)
                write("[[row]]\npeople = [\"Ana\", \"Somebody else\"]\n");
            else {
                std::filesystem::remove(path_);
                text_.clear();
            }
        }
    }

private:
    void write(const std::string& text) {
        text_ = text;
        std::ofstream{path_, std::ios::binary} << text;
    }

    std::string path_;
    std::string text_;
    Told set_by_others_;
    bool has_only_values_by_others_ = true;
};

}  // namespace backrow::rehearsal
