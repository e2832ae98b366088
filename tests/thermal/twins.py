"""Cooks of cookers drawn at random, with readings and vent moves as a person would give them: truth for
forecasts.
"""

from __future__ import annotations

import numpy as np

from advisor.thermal import forecast, population, simulate, state
from advisor.thermal.known import Action, Known, Reading, VentMove
from advisor.thermal.simulate import Move
from advisor.thermal.state import Fixed, Surroundings

RECIPE = [
    Action(0, bottom=0.0, top=0.0),
    Action(5, burp=True),
    Action(15, burp=True),
    Action(20, bottom=0.25, top=0.12),
]


def read(run, minute, rng):
    """A reading [F] at a minute of a run: 2 F of noise, rounded to 5 F."""
    return float(np.round((np.interp(minute, run.minutes, run.gauge_f[:, 0]) + rng.normal(0, 2)) / 5) * 5)


def _plan(over, top):
    if over > 60.0:
        return RECIPE
    return [Action(0, top=top * 0.4)] if over > 15.0 else [Action(0, top=min(1.0, top * 1.8))]


def _moves(plan, top, wind):
    moves = [Move(0, bottom=0.25, top=top, wind=wind)]
    for action in plan:
        moves.append(Move(action.at_min, bottom=action.bottom, top=action.top))
        if action.burp:
            moves += simulate.burp(action.at_min, 0.05, 12.0)
    return moves


def cooks(count, seed, width=1.0, kind="large"):
    """(known, plan, [(minutes until back, gauge after two hours) of the plan and of doing nothing]) for each
    cook.
    """
    rng = np.random.default_rng(seed)
    z = population.draw_z(kind, count, rng, width)
    for i in range(count):
        fixed = Fixed(population.from_z(kind, z[:, [i]]), Surroundings(ambient=293.15 + rng.normal(0, 6)))
        yield from _cook(fixed, rng, kind)


def _cook(fixed, rng, kind):
    soaked, target = bool(rng.random() < 0.5), float(rng.choice([225.0, 250.0, 275.0, 300.0]))
    first = rng.uniform(15, 40)
    now = first + (rng.uniform(60, 180) if soaked else rng.uniform(5, 30))
    wind, top = abs(rng.normal(0, 1)), float(np.exp(rng.uniform(np.log(0.06), np.log(0.6))))
    moves = [
        Move(0, bottom=1.0, top=1.0, crack=0.3, wind=wind),
        Move(8, crack=0.0),
        Move(first, bottom=0.25, top=top),
    ]
    if soaked and rng.random() < 0.5:
        top = float(np.exp(rng.uniform(np.log(0.06), np.log(0.8))))
        moves.append(Move(now - rng.uniform(8, 30), top=top))
    run = simulate.run(
        state.fresh(fixed, rng.uniform(0.08, 0.2), rng.uniform(0.5, 1.0)), fixed, moves, now, dt=30.0
    )
    if not 150.0 < run.gauge_f[-1, 0] < 600.0:
        return
    ages = -np.arange(int(rng.integers(1, 6)))[::-1] * rng.choice([4.0, 7.0, 10.0])
    known = Known(
        target,
        tuple(Reading(float(a), read(run, now + a, rng)) for a in ages),
        bottom=1.0,
        top=1.0,
        moves=tuple(VentMove(m.at_min - now, m.bottom, m.top) for m in moves[2:]),
        lit_ago_min=now - 3.0 if rng.random() < 0.7 else None,
        soaked=soaked if rng.random() < 0.6 else None,
        ambient_f=68.0 if rng.random() < 0.5 else None,
        deflector_in=True,
        kind=kind,
    )
    plan, outcomes = _plan(run.gauge_f[-1, 0] - target, top), []
    for actions in (plan, []):
        after = simulate.run(run.x, fixed, _moves(actions, top, wind), 120.0, dt=30.0)
        back = forecast.first_stay(after.minutes, after.gauge_f, target, forecast.BAND_F, forecast.STAY_MIN)
        outcomes.append((float(back[0]), float(after.gauge_f[-1, 0])))
    yield known, plan, outcomes


def holds(found, minutes):
    """True when the forecast's interval holds the minutes (inf: not within the horizon)."""
    low = np.inf if found.low_min is None else found.low_min
    high = np.inf if found.high_min is None else found.high_min
    return low - 0.5 <= minutes <= high + 0.5
