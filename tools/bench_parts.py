"""What tools/bench measures: for each part which commands are run, and what their times tell.

Everything is found from outside, by whole commands and differences of them, so that any build can be
measured; what a build tells of itself beside that (keys of "render" that end in _seconds) is taken too.
"""
import dataclasses
import functools
import hashlib
import json
import os
import pathlib
import re
import tomllib

from timed_commands import CommandFailed, run_timed
from window_timings import rehearse_timed

HERE = pathlib.Path(__file__).resolve().parent
LADDER = (8, 12, 16, 24, 32, 48, 64, 96, 128, 192, 256, 384)
WANTED_DB, WANTED_SSIM = 43.0, 0.99
SMALL = 240  # pixels on the long side, of which a pass costs hardly more than its triangles
# Points of the lens between which a pass is timed. A small picture's pass is short, and many of them
# are needed to stand out from what the start of a command varies by.
FEW, MANY_SMALL, MANY = 8, 104, 40


@dataclasses.dataclass(frozen=True)
class Build:
    name: str
    program: str


@dataclasses.dataclass
class Scene:
    name: str
    file: pathlib.Path
    people: int
    pixels: tuple  # of its camera, as the picture is held

    def size(self, long_side):
        """Of a picture, as wide as makes its long side so long; programs count its height after it."""
        scale = long_side / max(self.pixels)
        return tuple(round(side * scale) for side in self.pixels)


@dataclasses.dataclass
class Asked:
    """The settings that parts need."""
    folder: pathlib.Path  # for what is written on the way
    keep: pathlib.Path    # for references
    long_side: int
    quality_long_side: int
    reference_samples: int


@dataclasses.dataclass
class Experiment:
    """Steps that every build takes in turn, and what one round of them tells.

    once     steps (name, do) that are taken a single time and not timed; do(build, told) returns
             what is told under the name
    values   makes (key, title, unit, value) of everything told to one build in one round
    rounds   how many there are, for each that is asked for
    """
    part: str
    steps: list
    values: callable
    once: list = dataclasses.field(default_factory=list)
    rounds: int = 1
    notes: callable = lambda told, other: []


def scene_of(name, file, program):
    """Asked of the program, so that what a file leaves out is as the program takes it."""
    told = json.loads(run_timed([program, "faces", file, "--format", "json"]).out)
    long, short = sorted(told["camera"]["pixels"], reverse=True)
    is_upright = told["camera"]["orientation"] == "portrait"
    return Scene(name, file, len(told["faces"]), (short, long) if is_upright else (long, short))


def preview(asked, scene, long_side, *options):
    """A step that draws the scene so large."""
    width = scene.size(long_side)[0]

    def do(build, _):
        return run_timed([build.program, "preview", scene.file, "-o", asked.folder / "out.png",
                          "--width", width, "--format", "json", *options])
    return do


def verb(scene, *words):
    return lambda build, _: run_timed([build.program, words[0], scene.file, *words[1:],
                                       "--format", "json"])


def seconds(told, step):
    return told[step].seconds if step in told else None


def between(told, step, less):
    """What the step takes more than another, in seconds."""
    return told[step].seconds - told[less].seconds if step in told and less in told else None


def starting(_):
    """What costs before there is any scene."""
    return Experiment("start", [("version", lambda build, _: run_timed([build.program, "--version"]))],
                      lambda told: [("version", "--version", "s", seconds(told, "version"))], rounds=5)


def start(_, scene):
    return Experiment("start", [("faces", verb(scene, "faces"))],
                      lambda told: [("faces", "faces", "s", seconds(told, "faces"))], rounds=5)


def answers(_, scene):
    with open(scene.file, "rb") as file:
        distance_m = tomllib.load(file).get("camera", {}).get("distance_m")
    steps = [("advise", verb(scene, "advise")), ("odds", verb(scene, "odds"))]
    if distance_m and scene.people <= 40:  # With 200 a search so wide takes minutes.
        steps.append(("advise wide", verb(scene, "advise", "--grade", "crisp", "--distance-max",
                                          round(1.3 * distance_m, 2))))

    def values(told):
        return [("advise", "advise", "s", seconds(told, "advise")),
                ("advise_wide", "advise, crisp, to 1.3 × as far", "s", seconds(told, "advise wide")),
                ("odds", "odds", "s", seconds(told, "odds"))]

    def notes(told, other):
        return [f"{step} does not answer alike; tools/compare-answers shows where"
                for step, _ in steps if step in told and step in other
                and told[step].out != other[step].out]
    return Experiment("answers", steps, values, notes=notes)


def whole_preview(asked, scene):
    steps = [("picture", preview(asked, scene, asked.long_side)),
             ("sheet", preview(asked, scene, asked.long_side,
                               "--faces-sheet", asked.folder / "faces.png"))]

    def values(told):
        yield "preview", "preview", "s", seconds(told, "picture")
        if "picture" in told:
            yield "processor", "… its processor time", "s", told["picture"].processor_s
            yield "memory", "… its peak memory", "MB", told["picture"].peak_mb
            render = json.loads(told["picture"].out)["render"]
            yield "samples", "… its points of the lens", "points", render["samples"]
            for key, value in render.items():
                if key == "seconds" or key.endswith("_seconds"):
                    yield f"told_{key}", f"… it tells {key}", "s", value
        yield "sheet", "sheet of faces, on top", "s", between(told, "sheet", "picture")
        if "sheet" in told:
            yield "sheet_memory", "… peak memory with it", "MB", told["sheet"].peak_mb
            for key, value in json.loads(told["sheet"].out)["render"].items():
                if key.startswith("faces") and key.endswith("_seconds"):
                    yield f"told_sheet_{key}", f"… it tells {key}", "s", value
    return Experiment("preview", steps, values)


def passes(asked, scene):
    many = {asked.long_side: MANY, SMALL: MANY_SMALL}
    steps = [(f"{look} {samples} {side}",
              preview(asked, scene, side, "--samples", samples,
                      *(["--flat"] if look == "flat" else [])))
             for side in many for samples in (1, FEW, many[side]) for look in ("flat", "lit")]

    def values(told):
        yield ("stage", f"start and stage (flat, 1 point, {SMALL} px)", "s",
               seconds(told, f"flat 1 {SMALL}"))
        yield ("light", "light (lit less flat)", "s",
               between(told, f"lit 1 {SMALL}", f"flat 1 {SMALL}"))
        yield ("picture", f"picture (flat, {asked.long_side} less {SMALL} px)", "s",
               between(told, f"flat 1 {asked.long_side}", f"flat 1 {SMALL}"))
        for side, most in many.items():
            for look in ("flat", "lit"):
                took_s = between(told, f"{look} {most} {side}", f"{look} {FEW} {side}")
                yield (f"pass_{look}_{side}", f"a pass, {look}, {side} px", "ms",
                       None if took_s is None else 1000 * took_s / (most - FEW))
    return Experiment("passes", steps, values)


# --- Quality -------------------------------------------------------------------------------------

def likeness(reference, picture):
    told = {}
    for ending in (".png", ".pfm"):
        pair = [path.with_suffix(ending) for path in (reference, picture)]
        told |= json.loads(run_timed([HERE / "compare-pictures", *pair, "--json"]).out)
    return told


@functools.cache
def contents_of(program):
    """A digest of the program, and of the shaders of its checkout."""
    digest = hashlib.sha256(pathlib.Path(program).read_bytes())
    for folder in pathlib.Path(program).resolve().parents:
        if (folder / "shaders").is_dir():
            for path in sorted((folder / "shaders").iterdir()):
                digest.update(path.name.encode() + path.read_bytes())
            break
    return digest.hexdigest()


def reference_of(asked, scene, build):
    """Where its picture by very many points of the lens is kept; another program has another."""
    digest = hashlib.sha256(contents_of(build.program).encode() + scene.file.read_bytes())
    for named in re.findall(r'"([^"\n]+)"', scene.file.read_text()):
        path = scene.file.parent / named
        if path.is_file():
            digest.update(path.read_bytes())
    width, height = scene.size(asked.quality_long_side)
    return asked.keep / (f"{scene.name}-{width}x{height}-{asked.reference_samples}-"
                         f"{digest.hexdigest()[:16]}.png")


def drawn(asked, scene, build, path, *options):
    """The picture as it is seen and in linear light; returns what the program told of it."""
    ran = run_timed([build.program, "preview", scene.file, "-o", path, "--linear",
                     path.with_suffix(".pfm"), "--width", scene.size(asked.quality_long_side)[0],
                     "--format", "json", *options])
    return json.loads(ran.out)["render"]


def quality(asked, scene):
    trial = asked.folder / "trial.png"

    def reference(build, _):
        path = reference_of(asked, scene, build)
        if not (path.exists() and path.with_suffix(".pfm").exists()):
            aside = path.with_name(f"unfinished-{os.getpid()}.png")
            drawn(asked, scene, build, aside, "--samples", asked.reference_samples)
            for ending in (".pfm", ".png"):
                aside.with_suffix(ending).replace(path.with_suffix(ending))
        return path

    def default(build, told):
        if "reference" not in told:
            raise CommandFailed("there is no reference to compare with")
        render = drawn(asked, scene, build, trial)
        return {"samples": render["samples"], **likeness(told["reference"], trial)}

    def climb(build, told):
        if "reference" not in told:
            raise CommandFailed("there is no reference to compare with")
        for samples in LADDER:
            drawn(asked, scene, build, trial, "--samples", samples)
            rung = {"samples": samples, **likeness(told["reference"], trial)}
            # Pictures that are the same to the bit have no decibels, and are as good as can be.
            rung["is_enough"] = (rung["db"] is None or rung["db"] >= WANTED_DB) and \
                rung["ssim"] >= WANTED_SSIM
            if rung["is_enough"]:
                break
        return rung

    def at_rung(build, told):
        if not told.get("rung", {}).get("is_enough"):
            return None
        return preview(asked, scene, asked.quality_long_side,
                       "--samples", told["rung"]["samples"])(build, told)

    def values(told):
        rung = told.get("rung", {})
        if told.get("at rung"):
            yield ("to_quality", f"seconds to {WANTED_DB:g} dB and SSIM {WANTED_SSIM:g}", "s",
                   told["at rung"].seconds)
        yield from described("rung", "… its" if rung.get("is_enough") else "not reached; its", rung)
        yield "default", "default quality", "s", seconds(told, "at default")
        yield from described("default", "… its", told.get("default", {}))

    def described(key, title, told):
        for name, words, unit in (("samples", "points of the lens", "points"), ("db", "decibels", "dB"),
                                  ("ssim", "SSIM", ""), ("linear_db", "linear decibels", "dB")):
            if told.get(name) is not None:
                yield f"{key}_{name}", f"{title} {words}", unit, told[name]

    def notes(told, other):
        if "reference" not in told or "reference" not in other:
            return []
        apart = likeness(other["reference"], told["reference"])
        if apart["db"] is None:
            return ["the references of both builds are the same"]
        return [f"the references of both builds are {apart['db']:.1f} dB and SSIM {apart['ssim']:.4f} alike"]

    return Experiment(
        "quality", [("at rung", at_rung), ("at default", preview(asked, scene, asked.quality_long_side))],
        values, once=[("reference", reference), ("default", default), ("rung", climb)], notes=notes)


# --- The window ----------------------------------------------------------------------------------

def window(asked, scene):
    def home_of(build):
        home = asked.folder / f"home-{build.name}"
        home.mkdir(exist_ok=True)
        return home

    def opened(build, _):
        return rehearse_timed(build.program, scene.file, str(home_of(build)))

    def values(told):
        now = told.get("opened", {})
        yield "window_first", "window: opened to first picture", "s", now.get("first_picture_s")
        yield "window_settled", "… to all done, faces too", "s", now.get("settled_s")
        yield "window_drag", "… pictures while the camera is dragged", "/s", now.get("drag_pictures_per_s")
        yield "window_answer", "… from a key to its first picture", "ms", now.get("answer_ms")
        yield "window_newcomer", "… until somebody added is seen", "ms", now.get("newcomer_ms")
    # Opened once before: a home that is new has none of the driver's compiled shaders yet.
    return Experiment("window", [("opened", opened)], values, once=[("warmed", opened)])


PARTS = {"start": start, "answers": answers, "preview": whole_preview, "passes": passes,
         "quality": quality, "window": window}
