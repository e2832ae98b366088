"""Where the top vent goes: what the chart of the trade or of the cooker holds, and the next move from where it stands."""

from dataclasses import dataclass
from itertools import pairwise
from math import exp, log

from advisor.answered import SMALLEST_GAP, USUAL_GAIN, Answer
from advisor.profile import CookerProfile, OwnChart
from advisor.rulebook.catalogue import VentChart

LARGEST_NUDGE = 0.08    # of full travel: common practice, no published source - half an inch is too much
WIDE = 0.4              # a top vent open further than this answers so little that only a share of it is a nudge; judgement
NUDGE = 0.8             # share of a small error that one small move takes away; judgement
LEAST_NUDGE, MOST_NUDGE = 0.06, 0.35  # of the opening's logarithm: less does not show, more is no nudge; judgement
PUSH, LEAST_PUSH = 0.7, 0.35          # how far past the holding setting a move goes, as a share of the error's worth; judgement
A_LITTLE_UNDER = exp(-10.0 * USUAL_GAIN)  # part of an opening that holds ten degrees less
MOST_PUSH = 0.6         # of the opening's logarithm: no move goes further past the holding setting; judgement
BOTTOM_GAIN = 1.7       # a bottom vent answers less, as the other openings go on drawing; judgement
MOST_BOTTOM, LEAST_BOTTOM = 1.1, 0.03  # one step of a steering bottom vent takes or gives two thirds; judgement
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


def aimed(top: float, ahead_f: float, known: Answer) -> float:
    """The next opening of a top vent at `top` when the dome heads for `ahead_f` off the target.

    It goes past the holding setting, to the side from which the dome has to be brought back, and always against the error.
    """
    push, least = known.gain * ahead_f, log(max(top, SMALLEST_GAP))
    aim, least = log(known.hold) - _within(PUSH * push, MOST_PUSH), least - _within(LEAST_PUSH * push, MOST_PUSH)
    return _possible(exp(min(aim, least) if ahead_f > 0 else max(aim, least)))


def nudged(top: float, off_f: float, known: Answer) -> float:
    """The same as one small move, by so much at least that it shows."""
    start = log(max(top, SMALLEST_GAP))
    way = -1.0 if off_f > 0 else 1.0
    wanted = max(way * (log(known.hold) - start), NUDGE * known.gain * abs(off_f), LEAST_NUDGE)
    change = way * min(MOST_NUDGE, wanted)
    travel = max(-LARGEST_NUDGE, min(LARGEST_NUDGE, exp(start + change) - max(top, SMALLEST_GAP)))
    return _possible(max(top, SMALLEST_GAP) + (travel if top < WIDE else exp(start + change) - top))


def stepped(bottom: float, ahead_f: float, known: Answer) -> float:
    """The next opening of a bottom vent that has to steer because the top can't."""
    change = _within(BOTTOM_GAIN * known.gain * ahead_f, MOST_BOTTOM)
    return round(max(LEAST_BOTTOM, min(1.0, max(bottom, LEAST_BOTTOM) * exp(-change))), 3)


def _within(value: float, most: float) -> float:
    return max(-most, min(most, value))


def _possible(opening: float) -> float:
    return round(max(SMALLEST_GAP, min(1.0, opening)), 3)
