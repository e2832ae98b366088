"""Reading the top-vent chart: a setting for a temperature, and a small move along it."""

from itertools import pairwise

from advisor.rulebook.catalogue import VentChart

LARGEST_NUDGE = 0.08  # of full travel: common practice, no published source - half an inch is too much
SMALLEST_GAP = 0.02   # a top vent shut further than this starves the fire; a nudge never goes there


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


def shifted(chart: VentChart, top: float, target_f: float, over_f: float) -> float:
    """Where to put a top vent that stands at `top` when the dome is `over_f` off: along the chart, never far."""
    move = opening_for(chart, target_f) - opening_for(chart, target_f + over_f)
    move = max(-LARGEST_NUDGE, min(LARGEST_NUDGE, move))
    return round(max(SMALLEST_GAP, min(1.0, top + move)), 3)
