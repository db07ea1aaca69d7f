"""Whether one build is quicker than another, from runs that took turns.

Each round runs both, so what slows the machine for a while slows both of a round, and goes out in
their ratio. Timings vary by factors, so the logarithms of the ratios are judged, by Student's t
("The probable error of a mean", Biometrika 6, 1908) with 99 % confidence round their median: a report
has a hundred lines, and of those that do not differ about one will be called beyond the noise. Two
runs may agree by chance and say nothing of the noise, so fewer than three are not judged.
"""
import dataclasses
import math
import statistics

# Two-sided 99 % points of Student's t for 1, 2, 3 … degrees of freedom, as in every table of it.
STUDENT_99 = (63.657, 9.925, 5.841, 4.604, 4.032, 3.707, 3.499, 3.355, 3.250, 3.169,
              3.106, 3.055, 3.012, 2.977, 2.947, 2.921, 2.898, 2.878, 2.861, 2.845)

# Of each unit, what a smaller and a larger number means; units not listed are not judged.
WORDS = {"s": ("faster", "slower"), "ms": ("faster", "slower"), "MB": ("smaller", "larger"),
         "/s": ("slower", "faster")}


@dataclasses.dataclass
class Comparison:
    """How the measured build stands to the other."""
    ratio: float | None = None        # other / this, by the rounds; none where differences are judged
    difference: float | None = None   # this − other
    noise: float | None = None        # half a band: a factor less 1 of the ratio, or in the unit
    is_beyond_noise: bool | None = None   # none: too few runs to say


def student_99(degrees):
    return STUDENT_99[min(degrees, len(STUDENT_99)) - 1]


def half_band(values):
    """Of 99 % round the middle of the values; nothing from fewer than three."""
    if len(values) < 3:
        return None
    return student_99(len(values) - 1) * statistics.stdev(values) / math.sqrt(len(values))


def compare(these, others):
    """Of two lists with a value or None for each round; None where no round has both."""
    pairs = [(a, b) for a, b in zip(these, others) if a is not None and b is not None]
    if not pairs:
        return None
    difference = statistics.median(a for a, _ in pairs) - statistics.median(b for _, b in pairs)
    # A difference of two noisy timings may come out at nothing or below; it has no ratio.
    if any(a <= 0 or b <= 0 for a, b in pairs):
        apart = [a - b for a, b in pairs]
        noise = half_band(apart)
        beyond = None if noise is None else abs(statistics.median(apart)) > noise
        return Comparison(difference=difference, noise=noise, is_beyond_noise=beyond)
    logs = [math.log(b / a) for a, b in pairs]
    middle, noise = statistics.median(logs), half_band(logs)
    return Comparison(ratio=math.exp(middle), difference=difference,
                      noise=None if noise is None else math.expm1(noise),
                      is_beyond_noise=None if noise is None else abs(middle) > noise)


def factor_words(ratio, unit):
    smaller, larger = WORDS[unit]
    times = max(ratio, 1 / ratio)
    return f"{smaller if ratio > 1 else larger} by {times:.{2 if times < 2 else 1}f}×"


def factor_band(noise):
    """Half a band of a factor, in words."""
    if noise >= 1:
        return f"a factor of {1 + noise:.1f}" if noise < 9 else "a factor of more than ten"
    return f"±{100 * noise:.{0 if noise >= 0.1 else 1}f} %"


def verdict(comparison, unit):
    """In words, for the measured build."""
    if comparison is None:
        return "not to be compared"
    if unit not in WORDS:  # measured once, and the same every time
        by = comparison.difference
        return "the same" if by == 0 else f"{by:+.{4 if unit == '' and abs(by) < 1 else 1}f} {unit}".strip()
    ratio, noise = comparison.ratio, comparison.noise
    if ratio is None:
        words = f"{WORDS[unit][0 if comparison.difference < 0 else 1]} by " \
                f"{abs(comparison.difference):.3g} {unit}"
        band = f"±{noise:.2g} {unit}" if noise is not None else None
    else:
        words = "the same" if ratio == 1 else factor_words(ratio, unit)
        band = None if noise is None else factor_band(noise)
    if comparison.is_beyond_noise is None:
        return f"{words} (fewer than three runs: noise unknown)"
    if comparison.is_beyond_noise:
        return f"{words} (beyond the noise, {band})"
    return f"within the noise, {band}"
