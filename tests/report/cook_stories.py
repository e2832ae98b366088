"""Invented cooks: one small enough to check by hand, one of fourteen hours from the thermal model, and odd ones."""

from datetime import UTC, datetime, timedelta, timezone
from functools import cache
from math import exp
from random import Random

import numpy as np

from advisor.report.story import Advised, CookStory, Deed, FuelTold, LidUp, Note, VentMove
from advisor.thermal.population import middle
from advisor.thermal.simulate import Cooking
from advisor.thermal.state import Controls

MORNING = datetime(2026, 11, 14, 6, 10, tzinfo=timezone(timedelta(hours=1)))

BY_HAND = CookStory(
    started=MORNING, length_min=240, number=3, cooker="the big one", target_f=250.0,
    dome=((0, 70), (40, 230), (50, 250), (60, 290), (100, 250), (130, 250), (140, 220), (160, 250), (200, 250), (240, 150)),
    moves=(VentMove(0, "bottom", 1.0, 1.0), VentMove(0, "top", 1.0, 1.0), VentMove(52, "top", 0.2, 1.0),
           VentMove(55, "top", 0.05, 0.2), VentMove(56, "bottom", 0.25, 1.0), VentMove(145, "top", 0.12, 0.05),
           VentMove(200, "top", 0.0, 0.12), VentMove(200.5, "bottom", 0.0, 0.25)),
    lids=(LidUp(62, burp=True, lasted_min=0.5), LidUp(130, lasted_min=2.0)),
    deeds=(Deed(62, "burp_lid", "Burp it."),),
    advice=(Advised(51, ("Set the top vent a fifth open.", "Hands off for 10 minutes.")),),
    notes=(Note(70, "smells clean"),),
    fuel=FuelTold(level_first=0.8, level_last=0.5, put_in_kg=4.0),
    food="pork shoulder", meat=((60, 40), (120, 150), (150, 153), (190, 155), (230, 190)),
    food_on_min=60.0, food_off_min=230.0, rested_until_min=240.0)

BARE = CookStory(started=datetime(2026, 3, 1, 12, tzinfo=UTC), length_min=95.0, dome=((0, 180), (30, 240), (95, 235)))
EMPTY = CookStory(started=datetime(2026, 3, 1, 12, tzinfo=UTC), length_min=0.0)
HOSTILE = '<script>alert("1")</script> & </style></svg> \u202e <img src=x onerror=alert(1)>'


@cache
def long_cook(readings: int = 800, visits: int = 40) -> CookStory:
    """Fourteen hours on a simulated cooker under a hand that overdoes every correction, at first too soon after the last."""
    cooking, numbers, minutes = Cooking(middle("large"), rounding_f=1.0), Random(5), 840
    cooking.reset(lit=0.08, fuel_share=0.9)
    waits = [35, 4, 3, 8, *(numbers.choice((3, 4, 14, 20, 26, 32)) for _ in range(visits))][:visits]
    due, stands, told, dome = waits.pop(0), (0.0, 1.0, 1.0), [], []
    for minute in range(minutes):
        if minute == due:
            over = dome[-1][1] - 250.0
            before, stands = stands, (minute, 0.25, round(min(0.6, max(0.02, min(stands[2], 0.25) * numbers.uniform(0.5, 1.9) * exp(-0.02 * over))), 2))
            told += _moves_between(before, stands)
            due = minute + waits.pop(0) if waits else None
        if minute == 75:
            cooking.put_food_on(4.0)
        controls = Controls(stands[1], stands[2], 0.05 if minute in (75, 300, 520) else 0.0)
        shown = cooking.step(60.0, controls)
        dome.append((minute + 1.0, float(shown.gauge_f[0]), float(shown.core_f[0])))
    plan, now = [move.at_min for move in told], stands
    told += [VentMove(800, "bottom", 0.0, now[1]), VentMove(800.5, "top", 0.0, now[2])]
    return CookStory(
        started=MORNING, length_min=minutes, number=12, cooker="the big one", target_f=250.0, outcome="good bark, a bit late",
        dome=_at(readings, [(minute, value) for minute, value, _ in dome]),
        meat=tuple((minute, core) for minute, _, core in dome if 80 <= minute <= 790 and minute % 10 == 0),
        moves=tuple(told), lids=(LidUp(75, lasted_min=1.0), LidUp(300, lasted_min=1.0), LidUp(520, lasted_min=1.0)),
        deeds=tuple(Deed(minute + 1.0, "set_vent", "Set the top vent.") for minute in plan[1:8]),
        advice=tuple(Advised(float(minute), (f"Top vent {words}.", "Hands off for 10 minutes.", "Read the dome and tell me."))
                     for minute, words in ((41, "a fifth open"), (49, "open a crack"), (64, "barely open"), (150, "open a crack"))),
        notes=(Note(76, "four kilos, bone in"), Note(400, HOSTILE)), fuel=FuelTold(level_first=0.9),
        food="pork shoulder", food_on_min=75.0, food_off_min=790.0, rested_until_min=839.0)


def _moves_between(before: tuple, after: tuple) -> list[VentMove]:
    pairs = (("bottom", before[1], after[1]), ("top", before[2], after[2]))
    return [VentMove(float(after[0]), vent, new, old) for vent, old, new in pairs if new != old]


def _at(readings: int, curve: list[tuple[float, float]]) -> tuple:
    """So many readings on straight lines between those of a curve."""
    step = (curve[-1][0] - curve[0][0]) / (readings - 1)
    minutes = [curve[0][0] + step * n for n in range(readings)]
    return tuple(zip(minutes, map(float, np.interp(minutes, *zip(*curve, strict=True))), strict=True))
