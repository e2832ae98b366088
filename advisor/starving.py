"""For how long the fire has had far less air than holds the target, and how much of that air it gets now.

Hot walls keep a dome up while the fire below them dies, so the dial tells of it too late; the clock tells of it in time.
"""

import math
from collections.abc import Mapping

from advisor.airway import Airway
from advisor.facts import Fact
from advisor.record import settings_of
from advisor.situation import Situation

STARVES = 0.3       # of the air that the chart says holds the target: with less the fire shrinks; judgement
HAIR = (0.03, 0.06)     # top and bottom that are a brake and no setting that holds: judgement
LATELY_MIN = 45.0   # what was starved longer ago has recovered or is out: judgement


def starved_min(situation: Situation, known: Mapping[str, Fact], airway: Airway, holds: float, now: float) -> float | None:
    """Minutes within the last LATELY_MIN with so little air that the fire starves, `holds` being the air (logarithm) that
    holds the target; None when the vents are not known.
    """
    settings = settings_of(situation, known, airway, now)
    if not settings:
        return None
    ends = [since for since, _ in settings[1:]] + [now]
    return sum(max(0.0, end - max(since, now - LATELY_MIN)) for (since, way), end in zip(settings, ends, strict=True)
               if way <= starving_way(airway, holds))


def starving_way(airway: Airway, holds: float) -> float:
    """The air (logarithm) below which a fire starves."""
    return max(holds + math.log(STARVES), airway.way(*HAIR))
