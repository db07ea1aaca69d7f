#!/usr/bin/python3
"""How the scripts measure: what is beyond the noise, what a command took, how alike pictures are.

No build is timed here. A stand-in for the program answers at once, so that what tools/bench makes of the
answers can be checked by itself. Pictures need the packages of Debian's own Python; hence the first line.
"""
import importlib.machinery
import importlib.util
import json
import math
import os
import pathlib
import subprocess
import sys
import tempfile
import unittest

TOOLS = pathlib.Path(__file__).resolve().parents[2] / "tools"
sys.dont_write_bytecode = True
sys.path.insert(0, str(TOOLS))

from bench_parts import Scene  # noqa: E402
from paired_timings import compare, verdict  # noqa: E402
from timed_commands import CommandFailed, run_timed  # noqa: E402

STAND_IN = """#!/bin/sh
case "$1" in
    --version) echo stand-in 1.0 ;;
    faces) echo '{"camera": {"pixels": [6000, 4000], "orientation": "portrait"}, "faces": [{}, {}]}' ;;
    odds) echo '{"both": BOTH}' ;;
    advise) echo "no advice today" >&2; exit 3 ;;
    *) exit 2 ;;
esac
"""


class PairedTimings(unittest.TestCase):
    def test_what_slows_both_builds_of_a_round_goes_out(self):
        found = compare([1, 2, 4, 1], [4, 8, 16, 4])
        self.assertAlmostEqual(found.ratio, 4)
        self.assertTrue(found.is_beyond_noise)
        self.assertIn("faster by 4.0×", verdict(found, "s"))

    def test_runs_that_scatter_alike_are_within_the_noise(self):
        found = compare([1.0, 1.2, 0.9, 1.1], [1.1, 1.0, 1.0, 1.05])
        self.assertFalse(found.is_beyond_noise)
        self.assertTrue(verdict(found, "s").startswith("within the noise"))

    def test_the_band_is_that_of_students_t(self):
        # Logarithms of the ratios 0, 0.1, 0.2: standard deviation 0.1, t of two degrees 9.925.
        found = compare([1, 1, 1], [1, math.exp(0.1), math.exp(0.2)])
        self.assertAlmostEqual(math.log1p(found.noise), 9.925 * 0.1 / math.sqrt(3))

    def test_fewer_than_three_runs_are_not_judged(self):
        found = compare([1, 1], [2, 2])
        self.assertIsNone(found.is_beyond_noise)
        self.assertIn("noise unknown", verdict(found, "s"))

    def test_a_run_that_failed_takes_its_pair_with_it(self):
        self.assertAlmostEqual(compare([1, None, 1, 9], [2, 5, 2, None]).ratio, 2)
        self.assertIsNone(compare([None], [1]))

    def test_differences_that_come_out_below_nothing_have_no_ratio(self):
        found = compare([-0.1, 0.1, 0.0], [1.0, 1.2, 1.1])
        self.assertIsNone(found.ratio)
        self.assertTrue(verdict(found, "s").startswith("faster by 1.1 s"))

    def test_more_pictures_a_second_are_faster(self):
        self.assertIn("faster by 2.0×", verdict(compare([20, 21, 20], [10, 10.5, 10]), "/s"))


class TimedCommands(unittest.TestCase):
    def test_a_command_tells_what_it_printed_and_took(self):
        ran = run_timed(["sh", "-c", "echo here; exit 4"])
        self.assertEqual((ran.out, ran.exit_code), ("here\n", 4))
        self.assertGreater(ran.seconds, 0)
        self.assertGreater(ran.peak_mb, 0)

    def test_a_command_that_fails_is_told_with_its_own_words(self):
        for command, words in ((["sh", "-c", "echo no lamp >&2; exit 3"], "ended with 3, saying: no lamp"),
                               (["sh", "-c", "kill -9 $$"], "SIGKILL"),
                               (["/no/such/program"], "/no/such/program: No such file")):
            with self.assertRaises(CommandFailed) as failed:
                run_timed(command)
            self.assertIn(words, str(failed.exception))


class Sizes(unittest.TestCase):
    def test_the_long_side_is_what_is_asked_for(self):
        self.assertEqual(Scene("", None, 2, (6000, 4000)).size(1920), (1920, 1280))
        self.assertEqual(Scene("", None, 2, (4000, 6000)).size(1920), (1280, 1920))


class Bench(unittest.TestCase):
    def setUp(self):
        scratch = tempfile.TemporaryDirectory()
        self.addCleanup(scratch.cleanup)
        self.folder = pathlib.Path(scratch.name)

    def program(self, name, both):
        path = self.folder / name
        path.write_text(STAND_IN.replace("BOTH", both))
        path.chmod(0o755)
        return path

    def run_bench(self, *words):
        environment = {**os.environ, "PYTHONDONTWRITEBYTECODE": "1"}
        return subprocess.run([TOOLS / "bench", *map(str, words)], capture_output=True, text=True,
                              env=environment)

    def test_two_builds_are_told_beside_each_other_and_what_failed_is_not_hidden(self):
        out = self.folder / "out.json"
        done = self.run_bench(self.program("one", "0.5"), "--against", self.program("two", "0.6"),
                              "--scenes", "couple", "--parts", "start,answers", "--runs", 3,
                              "--json", out)
        self.assertEqual(done.returncode, 1)
        report = json.loads(out.read_text())
        program, couple = report["sections"]
        self.assertEqual([line["key"] for line in program["lines"]], ["version"])
        self.assertEqual([line["key"] for line in couple["lines"]], ["faces", "odds"])
        self.assertEqual([len(each) for each in couple["lines"][1]["values"].values()], [3, 3])
        self.assertEqual(len(couple["notes"]), 1)  # The odds are not the same.
        for words in ("no advice today", "odds does not answer alike", "stand-in 1.0"):
            self.assertIn(words, done.stdout)

    def test_what_cannot_be_measured_is_refused_in_one_line(self):
        one = self.program("one", "0.5")
        for words in ((self.folder / "none",), (one, "--parts", "speed"), (one, "--scenes", "nobody"),
                      (one, "--json", self.folder / "none" / "out.json")):
            done = self.run_bench(*words, *([] if "--parts" in words else ["--parts", "start"]))
            self.assertEqual((done.returncode, done.stdout), (2, ""), done.stderr)
            self.assertEqual(done.stderr.count("\n"), 1)


@unittest.skipUnless(importlib.util.find_spec("numpy") and importlib.util.find_spec("PIL"),
                     "numpy and PIL are not installed")
class Pictures(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        loader = importlib.machinery.SourceFileLoader("compare_pictures", str(TOOLS / "compare-pictures"))
        cls.measures = importlib.util.module_from_spec(
            importlib.util.spec_from_loader(loader.name, loader))
        loader.exec_module(cls.measures)

    def test_a_step_of_sixteen_levels_is_24_decibels(self):
        grey = self.measures.np.full((20, 20, 3), 100.0)
        # 10 · log10(255² / 16²)
        self.assertAlmostEqual(self.measures.decibels(grey, grey + 16, 255), 24.0484, places=4)

    def test_flat_pictures_are_compared_by_their_means_alone(self):
        grey = self.measures.np.full((20, 20), 100.0)
        c1 = (0.01 * 255) ** 2
        self.assertAlmostEqual(self.measures.ssim(grey, grey + 50, 255),
                               (2 * 100 * 150 + c1) / (100**2 + 150**2 + c1))

    def test_a_picture_upside_down_in_brightness_is_unlike(self):
        # Same mean and variance everywhere, covariance −variance: (C2 − 2v) / (C2 + 2v).
        steps = self.measures.np.indices((64, 64)).sum(axis=0) % 2 * 2.0 - 1
        v, c2 = 40.0**2, (0.03 * 255) ** 2
        found = self.measures.ssim(128 + 40 * steps, 128 - 40 * steps, 255)
        self.assertAlmostEqual(found, (c2 - 2 * v) / (c2 + 2 * v), places=3)
        self.assertAlmostEqual(self.measures.ssim(128 + 40 * steps, 128 + 40 * steps, 255), 1)


if __name__ == "__main__":
    unittest.main()
