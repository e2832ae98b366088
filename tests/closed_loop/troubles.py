"""Kinds of trouble: how cookers come into it, and what their owner says about it at first."""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from makings import MAKINGS, Making

MADE_FOR_EACH = 24    # cookers made for each one wanted, as many stay out of the trouble


@dataclass(frozen=True)
class Trouble:
    """prepare(making) brings a making into trouble; over: range of degrees off the target that counts as that trouble;
    says: what the owner tells besides dome, target and vents; knows: what he can answer when asked.
    """

    name: str
    prepare: Callable[[Making], None]
    over: tuple[float, float]
    says: str = ""
    knows: dict = None
    leak: float = 1.0
    wind: tuple[float, float] = (0.0, 1.5)
    gust: float = 0.1
    bias_f: float = 0.0


def cold_overshoot(m: Making) -> None:
    m.light()
    m.run(m.rng.uniform(16, 24), 1.0, 1.0)


def soaked_overshoot(factor: float, minutes: float) -> Callable[[Making], None]:
    def prepare(m: Making) -> None:
        m.cook()
        m.run_away(minutes, factor)
    return prepare


def small_error(m: Making) -> None:
    m.cook(m.rng.choice([-18.0, -14.0, 14.0, 18.0], m.n))


def chased(m: Making) -> None:
    m.cook()
    held = m.top.copy()
    for k in range(10):
        m.run(3, None, np.clip(held * (2.8 if k % 2 else 0.5), 0.0, 1.0))


def ash_clogged(m: Making) -> None:
    m.cook()
    m.lay_ash(m.rng.uniform(0.75, 1.1, m.n))
    m.run(60)


def low_fuel(m: Making) -> None:
    m.cook()
    m.leave_fuel(m.rng.uniform(0.01, 0.15, m.n))
    m.run(50)


def shut_in(minutes: float) -> Callable[[Making], None]:
    def prepare(m: Making) -> None:
        m.cook()
        m.run(minutes, 0.0, 0.0)
    return prepare


def tight(m: Making) -> None:
    m.cook()
    m.run(35, None, np.maximum(0.45 * m.top, 0.02))


def windy(m: Making) -> None:
    m.cook()
    m.wind = m.rng.uniform(4.0, 7.0, m.n)
    m.run(15)


def lid_closed(m: Making) -> None:
    m.cook()
    m.run(3, lid_up=True)
    m.run(1)
    m.moved_ago_min = 20.0


TROUBLES = [
    Trouble("overshoot, cold walls", cold_overshoot, (60, 200), "lit it {lit} minutes ago"),
    Trouble("overshoot, soaked walls", soaked_overshoot(4.0, 30), (70, 180), "been cooking {hours} hours"),
    Trouble("well over, soaked walls", soaked_overshoot(1.9, 22), (25, 70), "been cooking {hours} hours"),
    Trouble("leaky gasket", soaked_overshoot(3.0, 25), (40, 180), "smoke leaks out all round the lid", {"gasket_leaks": True},
            leak=1.6),
    Trouble("small steady error", small_error, (-24, 24), "been steady there for half an hour"),
    Trouble("chasing", chased, (-90, 90), "it swings and i move the vents every 3 minutes"),
    Trouble("ash-clogged", ash_clogged, (-130, -25), "it keeps sinking, lit it {hours} hours ago", {"ash": "heavy"}),
    Trouble("low fuel", low_fuel, (-150, -25), "it keeps sinking", {"fuel_level": 0.08}),
    Trouble("vents shut in", shut_in(22), (-110, -25), "both vents shut 22 minutes ago"),
    Trouble("nearly out after choking", shut_in(42), (-170, -50), "both vents shut for 42 minutes"),
    Trouble("vents too tight", tight, (-100, -25), "been cooking {hours} hours"),
    Trouble("gusty wind", windy, (20, 150), "windy, gusts", {"windy": True}, wind=(0.5, 2.0), gust=0.35),
    Trouble("lid just closed", lid_closed, (-200, -15), "just closed the lid after putting food on, it was on target before"),
    Trouble("biased thermometer", soaked_overshoot(2.2, 25), (25, 120), "been cooking {hours} hours", bias_f=-18.0),
]


def start(trouble: Trouble, count: int, width: float, seed: int, kind: str = "large", world: str = "first") -> tuple:
    """(world, making) of `count` cookers in that trouble: of those made, the ones as far off as the trouble says."""
    making = MAKINGS[world](trouble, MADE_FOR_EACH * count, width, seed, kind)
    trouble.prepare(making)
    over = making.dial() - making.target_f
    low, high = trouble.over
    fits = np.flatnonzero(making.burning() & (over >= low) & (over <= high) & (np.abs(over) > 9.0))[:count]
    making.target_f = making.target_f[fits]
    return making.world(fits, trouble.gust, trouble.bias_f, seed + 1), making
