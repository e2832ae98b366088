"""A second, quite different world of cookers, so that advice is not fitted to the first: no heat balance, no draught.

A fire of some strength (the dome it would hold) follows the steady strength of its openings with a dead time; the dome
is a mix of fire and slow walls; starved coals lose their embers. The figures stand around the trade's chart (common
practice, no published source: half open 325 °F, an eighth 225-250, answers in about 15 minutes); every gain and time
is drawn up to a factor of two either way.
"""

from dataclasses import dataclass, field

import numpy as np
from hands import Hands

AMBIENT_F = 70.0
CHART = ((0.0, 0.0), (0.01, 80.0), (0.03, 130.0), (0.05, 150.0), (0.08, 160.0), (0.125, 178.0), (0.22, 205.0),
         (0.35, 230.0), (0.5, 255.0), (0.7, 330.0), (1.0, 430.0))  # opening: °F above the air that it holds
DEAD_STEPS = 6              # half minutes of openings remembered
STARVED, FLASH_AIR, FLASH_F, CRACKED_IN = 0.012, 0.25, 150.0, 1.5
FULL_KG, LOW_KG = 1.2, 0.25


def _between(rng: np.random.Generator, low: float, high: float, n: int) -> np.ndarray:
    """Drawn evenly in the logarithm (n,)."""
    return np.exp(rng.uniform(np.log(low), np.log(high), n))


@dataclass
class Cookers:
    """What differs between cookers, arrays (n,): gains, leak (as an opening), times [min], shares."""

    gain: np.ndarray
    shape: np.ndarray
    bottom_gain: np.ndarray
    leak: np.ndarray
    dead: np.ndarray
    up: np.ndarray
    down: np.ndarray
    air: np.ndarray
    wall: np.ndarray
    share: np.ndarray
    starve: np.ndarray
    growth: np.ndarray
    burp: np.ndarray
    lag: np.ndarray
    gusty: np.ndarray
    burn: np.ndarray

    @classmethod
    def drawn(cls, n: int, leaky: float, width: float, rng: np.random.Generator) -> "Cookers":
        def around(middle: float, factor: float) -> np.ndarray:
            return _between(rng, middle / factor ** width, middle * factor ** width, n)
        leak = around(0.075, 1.6) if leaky > 1.0 else around(0.006, 2.0)
        return cls(around(1.3, 2.0), rng.uniform(0.85, 1.2, n), around(3.0, 1.5), leak, rng.integers(1, DEAD_STEPS, n),
                   around(7.0, 1.7), around(8.0, 1.7), around(2.5, 1.5), around(80.0, 1.6), rng.uniform(0.3, 0.6, n),
                   around(32.0, 1.4), around(0.09, 1.6), rng.uniform(0.25, 0.6, n), rng.uniform(0.7, 2.0, n),
                   around(0.08, 2.0), around(0.00016, 1.5))

    def pick(self, index: np.ndarray) -> "Cookers":
        return Cookers(*(value[index] for value in self.__dict__.values()))


@dataclass
class SecondWorld(Hands):
    """n cookers. fire, dome, wall [°F above the air]; embers, air (of breath under the lid) 0..1; fuel [kg], ash 0..1."""

    c: Cookers
    fire: np.ndarray
    dome: np.ndarray
    wall: np.ndarray
    gauge: np.ndarray
    fuel: np.ndarray
    ash: np.ndarray
    embers: np.ndarray
    air: np.ndarray
    past: np.ndarray                       # openings of the last half minutes (DEAD_STEPS, n)
    bottom: np.ndarray
    top: np.ndarray
    wind: np.ndarray
    gust: float
    bias_f: np.ndarray
    rng: np.random.Generator
    minute: int = 0
    lid_up: np.ndarray = None
    log: dict[str, np.ndarray] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.begin()

    @property
    def n(self) -> int:
        return len(self.fire)

    @classmethod
    def lit(cls, n: int, leaky: float, width: float, rng: np.random.Generator, wind: np.ndarray) -> "SecondWorld":
        """Just lit, cold through."""
        zero, one = np.zeros(n), np.ones(n)
        return cls(Cookers.drawn(n, leaky, width, rng), 60.0 * one, zero.copy(), zero.copy(), zero.copy(),
                   rng.uniform(1.5, 3.0, n), zero.copy(), one.copy(), one.copy(), np.ones((DEAD_STEPS, n)), one.copy(),
                   one.copy(), wind, 0.0, zero.copy(), rng)

    def dial(self) -> np.ndarray:
        return self.truth() + self.bias_f

    def truth(self) -> np.ndarray:
        return AMBIENT_F + self.gauge

    def alive(self) -> np.ndarray:
        return (self.embers > 0.0) & (self.fire > 12.0)

    def pass_minute(self) -> None:
        self.blow()
        for _ in range(2):
            self._half_minute()
        self.minute += 1

    def opening(self) -> np.ndarray:
        """The two vents and the leak as one opening (n,): what lets in less counts."""
        c = self.c
        wind = 1.0 + c.gusty * self.wind * self.gusts
        out = self.top + c.leak
        into = c.bottom_gain * (1.0 - 0.9 * self.ash) * self.bottom + 0.6 * c.leak
        return wind * (np.maximum(out, 1e-4) ** -2.0 + np.maximum(into, 1e-4) ** -2.0) ** -0.5

    def steady(self, opening: np.ndarray) -> np.ndarray:
        """°F above the air that a fire with this opening holds (n,); little charcoal holds less."""
        xs, ys = zip(*CHART, strict=True)
        held = np.interp(np.minimum((opening * self.c.gain) ** self.c.shape, 1.0), xs, ys)
        return held * np.clip(self.fuel / LOW_KG, 0.0, 1.0)

    def _half_minute(self) -> None:
        c, dt = self.c, 0.5
        self.past = np.vstack([self.opening()[None], self.past[:-1]])
        drawn = self.past[c.dead, np.arange(self.n)]
        wanted = self.steady(drawn) * (self.embers > 0.0)
        rising = np.minimum((wanted - self.fire) / c.up, c.growth * self.fire * self.embers)
        self.fire = np.maximum(self.fire + dt * np.where(wanted > self.fire, rising, (wanted - self.fire) / c.down), 0.0)
        starved = np.clip(1.0 - drawn / STARVED, 0.0, 1.0)
        self.embers = np.clip(self.embers + dt * np.where(starved > 0.0, -starved / c.starve, 0.08) * (self.embers > 0.0), 0.0, 1.0)
        fresh = drawn / (drawn + 0.015)
        self.air += dt * (fresh - self.air) / 2.0
        heat = (1.0 - c.share) * self.fire + c.share * self.wall
        heat = np.where(self.lid_up, 0.4 * heat, heat)
        self.dome += dt * (heat - self.dome) / np.where(self.lid_up, 0.7, c.air)
        self.wall += dt * (self.dome - self.wall) / c.wall
        self.gauge += (self.dome - self.gauge) * (1.0 - np.exp(-dt / c.lag))
        burnt = dt * c.burn * self.fire / 10.0
        self.fuel, self.ash = np.maximum(self.fuel - burnt, 0.0), np.minimum(self.ash + 0.03 * burnt, 1.0)
        self.air = np.where(self.lid_up, 1.0, self.air)

    def foresee(self, index: np.ndarray) -> "SecondWorld":
        """A copy of the cookers at index, with steady wind."""
        kept = {name: getattr(self, name)[index].copy() for name in
                ("fire", "dome", "wall", "gauge", "fuel", "ash", "embers", "air", "bottom", "top", "wind", "bias_f", "lid_up")}
        return SecondWorld(c=self.c.pick(index), past=self.past[:, index].copy(), gust=0.0, rng=self.rng, **kept)

    # -- what hands do to it --------------------------------------------------------------------------------------

    def starved(self, i: int) -> bool:
        return bool(self.air[i] < FLASH_AIR and self.fire[i] > FLASH_F and self.embers[i] > 0.1)

    def burp(self, i: int, crack_in: float = 1.0) -> None:
        self.log["lids"][i] += 1
        self.log["flashes"][i] += self.starved(i) and crack_in > CRACKED_IN
        self.dome[i] *= 1.0 - self.c.burp[i]
        self.air[i] = max(self.air[i], 0.6)

    def add_fuel(self, i: int, kg: float) -> None:
        self.fire[i] *= 0.8
        self.fuel[i] += kg

    def light(self, i: int, kg: float) -> None:
        self.fire[i] += 25.0
        self.embers[i] = max(self.embers[i], 0.5)

    def clear_ash(self, i: int) -> None:
        self.ash[i] *= 0.1
