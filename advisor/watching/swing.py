"""A dome that swings: up and down again and again, by more than a thermometer wavers and a lid explains.

It decides by turning points: a turn counts once the dome has come back by TURN_F from it.
"""

from itertools import pairwise

from advisor.watching.lines import Points
from advisor.watching.scene import Scene, Sighting

LOOK_MIN = 90.0      # how far back a swing is looked for: judgement
TURN_F = 15.0        # judgement: "near enough" on one side to "near enough" on the other
TURNS = 4            # two swings there and back
SPREADS = 4.0        # a turn is larger than so many spreads of a restless thermometer


def look(scene: Scene) -> Sighting | None:
    steady = scene.line(6.0)
    least = max(TURN_F, SPREADS * steady.spread_f) if steady else TURN_F
    turns = turning_points([point for point in scene.points if point[0] > scene.now - LOOK_MIN], least)
    if len(turns) < TURNS:
        return None
    sizes = [abs(later[1] - earlier[1]) for earlier, later in pairwise(turns)]
    size = sum(sizes) / len(sizes)
    return Sighting("swing", size, {"size_f": size, "low_f": min(value for _, value in turns),
                                    "high_f": max(value for _, value in turns),
                                    "every_min": 2.0 * (turns[-1][0] - turns[0][0]) / (len(turns) - 1)})


def turning_points(points: Points, least_f: float) -> list[tuple[float, float]]:
    """Peaks and troughs, each at least least_f from the next, the one that is still going on left out."""
    turns: list[tuple[float, float]] = []
    if not points:
        return turns
    extreme, way = points[0], 0
    low = high = points[0]
    for point in points:
        if way == 0:
            low, high = min(low, point, key=lambda p: p[1]), max(high, point, key=lambda p: p[1])
            if high[1] - low[1] >= least_f:
                way, extreme = (1, high) if high[0] > low[0] else (-1, low)
        elif way * (point[1] - extreme[1]) > 0:
            extreme = point
        elif way * (extreme[1] - point[1]) >= least_f:
            turns.append(extreme)
            extreme, way = point, -way
    return turns
