"""Where the top vent goes: what the chart of the trade holds, what this cook's own setting shows, and the next move.

The gain is a compromise: along the chart an opening must grow by e^0.018 for a degree, in the thermal model by e^0.005;
half of one and twice the other corrects most of an error in one move on a cooker of the chart's kind, and on one
of the model's kind, which shows half of a move within ten minutes, not much more than all of it.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise
from math import exp, log

from advisor.profile import CookerProfile, OwnChart
from advisor.rulebook.catalogue import VentChart

LARGEST_NUDGE = 0.08    # of full travel: common practice, no published source - half an inch is too much
SMALLEST_GAP = 0.02     # a top vent shut further than this starves the fire; no move ever goes there
GAIN_PER_F = 0.010      # of the opening's logarithm for a degree of error
A_LITTLE_UNDER = exp(-10.0 * GAIN_PER_F)  # part of an opening that holds ten degrees less
MOST_LOG = 0.7          # no single move more than halves or doubles an opening: judgement
FAR_OFF = 2.0           # an opening more than twice what should hold the target is first taken for twice that
PRIOR_SD = 0.5          # how far off the chart may be, of the opening's logarithm: judgement, charcoal and cookers differ
SEEN_SD, SEEN_SD_PER_F = 0.3, 0.008   # how far off what a setting shows may be, more so the further from the target


@dataclass(frozen=True, slots=True)
class Holding:
    """The top opening that holds a temperature, how far off it may be (of its logarithm), and the cooks it rests on."""

    opening: float
    log_sd: float
    cooks: int = 0


def holding(chart: VentChart, profile: CookerProfile, dome_f: float) -> Holding:
    """What holds `dome_f` on this cooker: by its own chart where there is one, else by that of the trade."""
    if profile.chart is None or not profile.chart.cooks:
        return Holding(opening_for(chart, dome_f), PRIOR_SD)
    return _by_own(profile.chart, dome_f)


def _by_own(own: OwnChart, dome_f: float) -> Holding:
    """Straight lines in the opening's logarithm between the points, flat beyond the ends."""
    first, last = own.points[0], own.points[-1]
    at = min(max(dome_f, first.dome_f), last.dome_f)
    low, high = next((low, high) for low, high in pairwise(own.points) if at <= high.dome_f)
    part = (at - low.dome_f) / (high.dome_f - low.dome_f)
    level = log(low.opening) + part * (log(high.opening) - log(low.opening))
    return Holding(_possible(exp(level)), low.log_sd + part * (high.log_sd - low.log_sd), own.cooks)


def opening_for(chart: VentChart, dome_f: float) -> float:
    """Top-vent opening (0..1) that holds `dome_f`, straight lines between the points, flat beyond the ends."""
    points = chart.points
    if dome_f <= points[0].dome_f:
        return points[0].opening
    for low, high in pairwise(points):
        if dome_f <= high.dome_f:
            part = (dome_f - low.dome_f) / (high.dome_f - low.dome_f)
            return round(low.opening + part * (high.opening - low.opening), 3)
    return points[-1].opening


def in_sight(prior: float, shown: Iterable[tuple[float, float]], prior_sd: float = PRIOR_SD) -> float:
    """The opening that should hold the target: `prior`, weighed against what settings have shown (opening, °F off).

    A top vent at `opening` under which the dome heads for `off` degrees past the target says that the holding setting is
    opening * exp(-gain * off). All are joined by their precision in the logarithm.
    """
    total = prior_sd ** -2
    level = total * log(max(prior, SMALLEST_GAP))
    for opening, off in shown:
        weight = (SEEN_SD + SEEN_SD_PER_F * abs(off)) ** -2
        total, level = total + weight, level + weight * (log(max(opening, SMALLEST_GAP)) - GAIN_PER_F * off)
    return _possible(exp(level / total))


def aimed(top: float, ahead_f: float, hold: float) -> float:
    """The next opening of a top vent at `top` when the dome heads for `ahead_f` off the target that `hold` should hold."""
    base = min(top, FAR_OFF * hold) if ahead_f > 0 else max(top, hold / FAR_OFF)
    return _possible(base * exp(-max(-MOST_LOG, min(MOST_LOG, GAIN_PER_F * ahead_f))))


def nudged(top: float, ahead_f: float) -> float:
    """The same as one tiny move."""
    wanted = aimed(top, ahead_f, top)
    return _possible(max(top - LARGEST_NUDGE, min(top + LARGEST_NUDGE, wanted)))


def _possible(opening: float) -> float:
    return round(max(SMALLEST_GAP, min(1.0, opening)), 3)
