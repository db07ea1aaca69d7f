#include "preview_outputs.h"

#include "stage/export_gltf.h"

#include "base/file_endings.h"
#include "base/image_files.h"

using namespace backrow;

void PreviewOutputs::add_to(CLI::App& verb) {
    add_output_file(verb, "-o,--output", picture, "The picture (PNG)", "OUT.png")->required();
    add_output_file(verb, "--faces-sheet", faces_sheet, "Each face at 100 % (PNG)", "OUT.png");
    add_output_file(verb, "--linear", linear, "Linear light before tone mapping (PFM is lossless)",
                    "OUT.pfm|hdr");
    add_output_file(verb, "--export", model, "Exactly what is drawn, as binary glTF 2.0",
                    "OUT.glb");
    add_output_file(verb, "--camera-json", camera_json, "The camera as numbers", "OUT.json");
}

std::vector<OutputFile> files_of(const PreviewOutputs& outputs) {
    return {{"-o", outputs.picture, {".png"}},
            {"--faces-sheet", outputs.faces_sheet, {".png"}},
            {"--linear", outputs.linear, {".pfm", ".hdr"}},
            {"--export", outputs.model, {".glb"}},
            {"--camera-json", outputs.camera_json, {}}};
}

Made<void> write_aside(PendingFiles& files, const PreviewOutputs& outputs,
                       const PreviewContents& contents) {
    const auto add = [&](const std::string& path, const auto& make) -> Made<void> {
        if (path.empty())
            return {};
        return files.add(path, make());
    };
    auto written = add(outputs.picture, [&] { return png_bytes(contents.picture.developed); });
    if (written)
        written = add(outputs.faces_sheet, [&] {
            return png_bytes(report::faces_sheet(contents.sheet, contents.title));
        });
    if (written)
        written = add(outputs.linear, [&] {
            return ends_in(outputs.linear, ".hdr") ? radiance_bytes(contents.picture.linear)
                                                   : pfm_bytes(contents.picture.linear);
        });
    if (written && !outputs.model.empty()) {
        const auto model = glb_from_stage(contents.stage, contents.view);
        written = model ? files.add(outputs.model, *model)
                        : Made<void>{tl::make_unexpected(model.error())};
    }
    if (written)
        written = add(outputs.camera_json, [&] {
            return stage::camera_json(contents.view, contents.picture.developed.width_px(),
                                      contents.picture.developed.height_px());
        });
    return written;
}
