"""The four policies the advice is held against: nothing, chasing, the fixed recipe of the trade, and a plan found with
perfect knowledge of cooker, fire and wind.
"""

from itertools import product

import numpy as np
from hands import Hands as World
from makings import INCH, Making

from advisor.thermal.hold import steer

CHART = ((225.0, 0.05), (250.0, 0.12), (275.0, 0.22), (300.0, 0.35), (325.0, 0.5), (450.0, 1.0))  # common practice


def chart(dome_f: float) -> float:
    return float(np.interp(dome_f, *zip(*CHART, strict=True)))


def drive(world: World, minutes: int, hands) -> np.ndarray:
    """True dome [F] (minutes + 1, n) while hands(world, i, dome_f) act each minute for each cooker."""
    path = [world.truth()]
    for _ in range(minutes):
        reads = world.read()
        for i in range(world.n):
            hands(world, i, reads[i])
        world.pass_minute()
        path.append(world.truth())
    return np.array(path)


def leave_alone(making: Making):
    return lambda world, i, dome_f: None


def chase(making: Making):
    """Every three minutes the top goes a good way against the error."""
    def hands(world: World, i: int, dome_f: float) -> None:
        error = dome_f - making.target_f[i]
        if world.minute % 3 == 0 and abs(error) > 5.0:
            world.set_vent(i, "top", float(np.clip(max(world.top[i], 0.03) * (0.6 if error > 0 else 1.7), 0.01, 1.0)))
            world.set_vent(i, "bottom", INCH if error < 60 else 0.05)
    return hands


def recipe(making: Making):
    """The trade's card, followed once: over 60 shut both, 5 min, burp, 10 min, burp, at target set for a little under;
    less over, the chart's setting; under, open half until near, then the chart's setting."""
    began: dict[int, dict] = {}

    def hands(world: World, i: int, dome_f: float) -> None:
        target = making.target_f[i]
        note = began.setdefault(i, {"over": dome_f - target, "step": 0})
        minute, over = world.minute, note["over"]
        if over > 60.0:
            if minute == 0:
                world.set_vent(i, "bottom", 0.0), world.set_vent(i, "top", 0.0)
            elif note["step"] < 3 and minute == 5 + 10 * note["step"] and dome_f > target + 20:
                world.burp(i)
                note["step"] += 1
            elif dome_f <= target and not note.get("set"):
                note["set"] = True
                world.set_vent(i, "top", chart(target - 10.0)), world.set_vent(i, "bottom", INCH)
        elif over > -25.0:
            if minute == 0:
                world.set_vent(i, "top", chart(target)), world.set_vent(i, "bottom", INCH)
        elif minute == 0:
            world.set_vent(i, "top", 0.5), world.set_vent(i, "bottom", 0.5)
        elif dome_f >= target - 25.0 and not note.get("set"):
            note["set"] = True
            world.set_vent(i, "top", chart(target)), world.set_vent(i, "bottom", INCH)
    return hands


FIRST = [(None, None), (0.0, 0.0), (INCH, 0.02), (0.5, 0.5), (1.0, 1.0)]
FOR_MIN = (5, 10, 15, 20, 30, 45, 60)
FACTORS = (0.7, 0.85, 1.0, 1.2)


def perfect(making: Making, world: World, minutes: int) -> np.ndarray:
    """True dome (minutes + 1, n) of the best of many plans, each tried on a copy of the very cooker in its very state."""
    held = _held(making, world)
    plans = [(None, 0, f) for f in FACTORS] + [(f, t, s) for f, t, s in product(FIRST[1:], FOR_MIN, FACTORS)]
    n, count = world.n, len(plans)
    index = np.tile(np.arange(n), count)
    own = world.foresee(index)
    first = [plan[0] for plan in plans]
    bottom = np.repeat([INCH if f is None else f[0] for f in first], n)
    top = np.repeat([1.0 if f is None else f[1] for f in first], n)
    until = np.repeat([plan[1] for plan in plans], n)
    after = np.clip(np.repeat([plan[2] for plan in plans], n) * held[index], 0.003, 1.0)
    path = [own.truth()]
    for minute in range(minutes):
        if minute in (0, *FOR_MIN):
            going = until <= minute
            own.bottom, own.top = np.where(going, INCH, bottom), np.where(going, after, top)
        own.pass_minute()
        path.append(own.truth())
    alive = own.alive()
    path = np.array(path)
    cost = np.abs(path - making.target_f[index]).mean(axis=0) + 60.0 * ~alive
    best = cost.reshape(count, n).argmin(axis=0)
    return path.reshape(minutes + 1, count, n)[:, best, np.arange(n)]


def _held(making: Making, world: World) -> np.ndarray:
    """The opening that will hold each cooker's own target, found by steering a copy of it for two hours."""
    own = world.foresee(np.arange(world.n))
    top, error, kept = np.clip(world.top, 0.02, 0.4), world.truth() - making.target_f, []
    for k in range(60):
        own.bottom, own.top = np.full(world.n, INCH), top
        own.pass_minute()
        own.pass_minute()
        before, error = error, own.truth() - making.target_f
        top = steer(top, error, error - before)
        if k >= 25:
            kept.append(np.log(top))
    return np.exp(np.mean(kept, axis=0))
