"""The trade's facts about a large cooker (common practice, no published source), worked out by the model.

Nothing in the model was set to any one of them; `tests/thermal/test_trade_facts.py` says which come out.
"""

import numpy as np

from advisor.thermal import population, simulate, state
from advisor.thermal.hold import steer
from advisor.thermal.state import Controls, Fixed, Surroundings

LIGHTING = [simulate.Move(0, bottom=1.0, top=1.0, crack=0.3), simulate.Move(10, crack=0.0)]
LID_SHUT_MIN = 10.0
INCH = 0.25


def cooker(kind="large"):
    """(fixed, state just lit in two or three places, basket four fifths full) of the middle cooker."""
    fixed = Fixed(population.middle(kind), Surroundings())
    return fixed, state.fresh(fixed, 0.1, 0.8)


def steady_curve(kind="large", hours=4.0):
    """(openings, gauge F) after some hours with the bottom an inch open: an opening can be read off it."""
    tops = np.array([0.04, 0.07, 0.1, 0.13, 0.17, 0.22, 0.3, 0.5, 0.75, 1.0])
    fixed = Fixed(population.middle(kind, len(tops)), Surroundings())
    moves = [*LIGHTING, simulate.Move(25, bottom=INCH, top=tops)]
    run = simulate.run(state.fresh(fixed, 0.1, 0.8), fixed, moves, hours * 60.0)
    return tops, run.gauge_f[-1]


def warm_up_min(goal_f=300.0, kind="large"):
    """Minutes with the lid shut and both vents open until the gauge shows goal_f."""
    fixed, x = cooker(kind)
    run = simulate.run(x, fixed, LIGHTING, 120.0, every_min=0.5)
    return float(run.minutes[np.argmax(run.gauge_f[:, 0] >= goal_f)] - LID_SHUT_MIN)


def settling_min(goal_f=300.0, kind="large"):
    """Minutes from first showing goal_f, when the vents go to the holding setting, until it stays within 15
    F.
    """
    fixed, x = cooker(kind)
    start = LID_SHUT_MIN + warm_up_min(goal_f, kind)
    tops, shown = steady_curve(kind)
    top = float(np.interp(goal_f, shown, tops))
    run = simulate.run(x, fixed, [*LIGHTING, simulate.Move(start, bottom=INCH, top=top)], start + 240.0)
    off = np.abs(run.gauge_f[:, 0] - goal_f) > 15.0
    return float(run.minutes[np.flatnonzero(off)[-1]] - start)


def fuel_share(target_f, hours, kind="large", food_kg=0.0):
    """Share of a full basket used from lighting through some hours of a steered cook at target_f."""
    fixed, x = cooker(kind)
    x[state.UNLIT] += 0.2 * fixed.c.basket
    x[state.VOLATILE] += 0.2 * fixed.c.basket * fixed.driven_off
    before = (x[state.LIT] + x[state.UNLIT])[0]
    x = simulate.run(x, fixed, LIGHTING, LID_SHUT_MIN + 12.0).x
    state.put_food_on(x, food_kg)
    top, error = np.full(1, 0.2), np.zeros(1)
    for _ in range(int(hours * 40)):
        x, _ = simulate.advance(x, fixed, Controls(INCH, top), 90.0)
        last, error = error, state.shown_f(x, fixed) - target_f
        top = steer(top, error, error - last)
    assert abs(float(error[0])) < 10.0, "the cook was not held"
    return float((before - (x[state.LIT] + x[state.UNLIT])[0]) / fixed.c.basket[0])
