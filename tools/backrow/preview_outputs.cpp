#include "preview_outputs.h"

#include "delivery/picture_file.h"
#include "stage/export_gltf.h"

#include "base/file_endings.h"
#include "base/image_files.h"

using namespace backrow;

void PreviewOutputs::add_to(CLI::App& verb) {
    add_output_file(verb, "-o,--output", picture, "The picture, a PNG or a JPEG", "OUT.png|jpg")
        ->required();
    verb.add_option("--jpeg-quality", jpeg_quality, "Of a picture that is a JPEG")
        ->check(CLI::Range(1, 100))
        ->capture_default_str();
    verb.add_flag("--captions", with_captions,
                  "Under the picture who is in it, row by row from the left");
    add_output_file(verb, "--faces-sheet", faces_sheet, "Each face at 100 % (PNG)", "OUT.png");
    add_output_file(verb, "--linear", linear, "Linear light before tone mapping (PFM is lossless)",
                    "OUT.pfm|hdr");
    add_output_file(verb, "--export", model, "Exactly what is drawn, as binary glTF 2.0",
                    "OUT.glb");
    add_output_file(verb, "--camera-json", camera_json, "The camera as numbers", "OUT.json");
}

std::vector<OutputFile> files_of(const PreviewOutputs& outputs) {
    return {{"-o", outputs.picture, {".png", ".jpg", ".jpeg"}},
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
    const render::Picture& picture = contents.preview.picture;
    const auto encoded = delivery::picture_bytes(
        outputs.with_captions ? delivery::with_captions(picture.developed, contents.scene,
                                                        contents.view, contents.table.faces)
                              : picture.developed,
        delivery::is_jpeg(outputs.picture), outputs.jpeg_quality);
    if (!encoded)
        return tl::make_unexpected(encoded.error());
    auto written = files.add(outputs.picture, *encoded);
    if (written)
        written = add(outputs.faces_sheet, [&] {
            return png_bytes(report::faces_sheet(contents.preview.faces, contents.scene.title));
        });
    if (written)
        written = add(outputs.linear, [&] {
            return ends_in(outputs.linear, ".hdr") ? radiance_bytes(picture.linear)
                                                   : pfm_bytes(picture.linear);
        });
    if (written && !outputs.model.empty()) {
        const auto model = glb_from_stage(contents.stage, contents.view);
        written = model ? files.add(outputs.model, *model)
                        : Made<void>{tl::make_unexpected(model.error())};
    }
    if (written)
        written = add(outputs.camera_json, [&] {
            return stage::camera_json(contents.view, picture.developed.width_px(),
                                      picture.developed.height_px());
        });
    return written;
}
