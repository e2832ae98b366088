"""How much charcoal a cook took: from what was told, or from the thermal model, or not known. Says which."""

from dataclasses import dataclass
from typing import Literal

from advisor.report.curve import known_min
from advisor.report.story import CookStory, FuelTold, Points

SHORTEST_MIN = 30.0   # of known curve; from less the model would only guess
LEAST_KNOWN = 0.5     # share of the time that must be known, for the same reason
MOST_POINTS = 600     # of the curve; the model takes steps of a minute or more


@dataclass(frozen=True, slots=True)
class FuelUsed:
    """share: of a full basket; kg with low_kg and high_kg where the model worked it out (80 % lie between)."""

    how: Literal["told", "estimated"]
    share: float | None = None
    kg: float | None = None
    low_kg: float | None = None
    high_kg: float | None = None


def told(fuel: FuelTold) -> FuelUsed | None:
    """From a level before and after; kilograms too where the weight of the first level was told."""
    if fuel.level_first is None or fuel.level_last is None or fuel.level_last >= fuel.level_first:
        return None
    used = fuel.level_first - fuel.level_last
    return FuelUsed("told", share=used, kg=fuel.put_in_kg and fuel.put_in_kg * used / fuel.level_first)


def estimated(points: Points, kind: str) -> FuelUsed | None:
    """From the curve alone: what cookers of the kind burn along it. None where too little of it is known."""
    if known_min(points) < max(SHORTEST_MIN, LEAST_KNOWN * (points[-1][0] - points[0][0] if points else 0.0)):
        return None
    from advisor.thermal.burnt import burnt_along
    found = burnt_along(points[::max(1, len(points) // MOST_POINTS)], kind)
    return FuelUsed("estimated", kg=found[1], low_kg=found[0], high_kg=found[2]) if found else None


def fuel_used(story: CookStory, points: Points) -> FuelUsed | None:
    """What was told goes before what is worked out."""
    return told(story.fuel) or estimated(points, story.kind)
