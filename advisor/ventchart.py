"""Where the top vent goes: what the chart of the trade or of the cooker says that it holds."""

from dataclasses import dataclass
from itertools import pairwise
from math import exp, log

from advisor.airway import SMALLEST_GAP
from advisor.profile import CookerProfile, OwnChart
from advisor.rulebook.catalogue import VentChart

PRIOR_SD = 0.5          # how far off the chart may be, of the opening's logarithm: judgement, charcoal and cookers differ


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


def _possible(opening: float) -> float:
    return round(max(SMALLEST_GAP, min(1.0, opening)), 3)
