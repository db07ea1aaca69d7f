#pragma once

// The files that preview writes: named on the command line, checked before the work, written whole.

#include "output_file.h"

#include "delivery/preview.h"

#include "base/image_files.h"
#include "base/problem.h"
#include "base/whole_files.h"

#include <CLI/CLI.hpp>

#include <string>
#include <vector>

struct PreviewOutputs {
    std::string picture;      ///< .png, .jpg
    std::string faces_sheet;  ///< .png; the rest are empty where not wanted
    std::string linear;       ///< .pfm or .hdr
    std::string model;        ///< .glb
    std::string camera_json;
    int jpeg_quality = backrow::usual_jpeg_quality;
    bool with_captions = false;  ///< Names under the picture.

    void add_to(CLI::App& verb);
};

/// Each with its option and endings.
[[nodiscard]] std::vector<OutputFile> files_of(const PreviewOutputs& outputs);

struct PreviewContents {
    const backrow::delivery::Preview& preview;
    const backrow::scene::Scene& scene;
    const backrow::plan::FaceTable& table;
    const backrow::stage::Stage& stage;
    const backrow::scene::CameraView& view;
};

/// Writes all of them aside, for files.keep() to put in place.
[[nodiscard]] backrow::Made<void> write_aside(backrow::PendingFiles& files,
                                              const PreviewOutputs& outputs,
                                              const PreviewContents& contents);
