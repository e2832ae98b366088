"""How this cooker answers its top vent, from what its own settings have shown: where it holds the target, and its gain.

Near the target a dome rests ln(opening / hold) / gain degrees past it. The holding setting and the gain are both unknown:
the gain is tried on a grid, the holding setting follows for each by Gaussian updating, and the gains are weighed by how
well they foretell what was shown (Bayes' rule).
"""

from collections.abc import Iterable
from dataclasses import dataclass
from math import exp, log

SMALLEST_GAP = 0.02     # a top vent shut further than this starves the fire; no move ever goes there
GAINS = (0.0035, 0.005, 0.007, 0.010, 0.014, 0.020, 0.028, 0.040)   # of the opening's logarithm for a degree
USUAL_GAIN, GAIN_SD = 0.009, 0.7   # between the chart (0.018 and more) and the thermal model (0.005); sd of its logarithm
HAND_SD = 0.12          # of the opening's logarithm: how well a hand sets a vent, and what weather does to it; judgement


@dataclass(frozen=True, slots=True)
class Shown:
    """A top vent at `opening` for a while: the dome rested, or was heading, off_f past the target, give or take sd_f."""

    opening: float
    off_f: float
    sd_f: float = 12.0


@dataclass(frozen=True, slots=True)
class Answer:
    """hold: the opening that should hold the target; gain: of its logarithm for a degree; log_sd of hold."""

    hold: float
    gain: float = USUAL_GAIN
    log_sd: float = 0.5


def answer(prior: float, prior_sd: float, shown: Iterable[Shown]) -> Answer:
    """What `prior`, give or take prior_sd of its logarithm, comes to in the light of what was shown."""
    shown = [one for one in shown if one.opening >= SMALLEST_GAP]
    found = [_with(gain, log(max(prior, SMALLEST_GAP)), prior_sd ** 2, shown) for gain in GAINS]
    best = max(score for score, _, _ in found)
    weights = [exp(score - best) for score, _, _ in found]
    total = sum(weights)
    level = sum(w * mean for w, (_, mean, _) in zip(weights, found, strict=True)) / total
    spread = sum(w * (var + (mean - level) ** 2) for w, (_, mean, var) in zip(weights, found, strict=True)) / total
    gain = exp(sum(w * log(gain) for w, gain in zip(weights, GAINS, strict=True)) / total)
    return Answer(min(1.0, max(SMALLEST_GAP, exp(level))), gain, spread ** 0.5)


def _with(gain: float, mean: float, var: float, shown: list[Shown]) -> tuple[float, float, float]:
    """(log weight of this gain, mean and variance of the holding setting's logarithm) after all that was shown."""
    score = -0.5 * (log(gain / USUAL_GAIN) / GAIN_SD) ** 2
    for one in shown:
        seen, noise = log(one.opening) - gain * one.off_f, HAND_SD ** 2 + (gain * one.sd_f) ** 2
        score += log(gain) - 0.5 * log(var + noise) - 0.5 * (seen - mean) ** 2 / (var + noise)
        part = var / (var + noise)
        mean, var = mean + part * (seen - mean), (1.0 - part) * var
    return score, mean, var
