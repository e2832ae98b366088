"""What past cooks teach about one cooker: a small ensemble in normal units, saved as plain data, told as
figures.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from ..errors import ProfileError, ValueRefused
from . import air, state, weighing
from .guess import wind
from .hold import INCH, hold_each
from .known import Known, Reading, VentMove
from .paths import follow, turns
from .population import FURTHEST, draw_z, from_z, kind_ranges
from .simulate import Move, run
from .state import Controls, Fixed, Surroundings

VERSION = 1
KEPT = 96  # members saved
TRIED = 256  # members tried in each round
ROUNDS = 4  # each takes an equal share of the likelihood's exponent, so that no round starves
JITTER = 0.35  # kernel width of Liu and West's smoothing, as a share of the spread
MODEL_SD = 15.0  # F: model error of a whole cook, wind and charcoal of the day included; assumed
WIDENED = 1.5  # how much the spread grows after a cook that nothing fits; assumed
APART_MIN = 25.0  # readings nearer than this share their model error


@dataclass(frozen=True)
class Cook:
    """A past cook, times in minutes since lighting: readings, vent moves, and what is known of the day."""

    kind: str
    readings: tuple[Reading, ...]
    moves: tuple[VentMove, ...]
    bottom: float = 1.0
    top: float = 1.0
    lid_shut_at_min: float = 8.0
    fuel_share: float | None = None
    ambient_f: float | None = None
    windy: bool | None = None
    deflector_in: bool = True


@dataclass(frozen=True)
class Learned:
    """One cooker as members in normal units z (parameters, members), equally weighted, after some cooks."""

    kind: str
    z: np.ndarray
    cooks: int
    contradicted: bool = False

    def draw(self, n: int, rng: np.random.Generator) -> np.ndarray:
        """n members (parameters, n), smoothed so that mean and spread stay (Liu and West 2001)."""
        centre, spread = self.z.mean(axis=1, keepdims=True), self.z.std(axis=1, keepdims=True)
        chosen = self.z[:, rng.integers(0, self.z.shape[1], n)]
        shrunk = centre + np.sqrt(1.0 - JITTER**2) * (chosen - centre)
        return np.clip(
            shrunk + JITTER * spread * rng.standard_normal(chosen.shape), -1.6 * FURTHEST, 1.6 * FURTHEST
        )

    def to_data(self) -> dict:
        """Plain data for JSON."""
        members = {
            name: [round(float(v), 3) for v in row] for name, row in zip(kind_ranges(self.kind), self.z)
        }
        return {
            "version": VERSION,
            "kind": self.kind,
            "cooks": self.cooks,
            "contradicted": self.contradicted,
            "members": members,
        }

    @classmethod
    def from_data(cls, data: dict) -> Learned:
        """Back from plain data. Raises ProfileError when it is of another version or lacks a parameter."""
        if data.get("version") != VERSION:
            raise ProfileError(
                f"what was learned is of version {data.get('version')!r}",
                f"this program reads version {VERSION}",
                "learn again from the logbook",
            )
        names = list(kind_ranges(data["kind"]))
        missing = [name for name in names if name not in data["members"]]
        if missing:
            raise ProfileError(
                f"what was learned lacks {missing[0]!r}",
                "so it cannot be used",
                "learn again from the logbook",
            )
        z = np.array([data["members"][name] for name in names])
        return cls(data["kind"], z, int(data["cooks"]), bool(data["contradicted"]))


def learn(cook: Cook, before: Learned | None = None, seed: int = 11) -> Learned:
    """The cooker after one more cook. Raises ValueRefused when the cook holds no reading."""
    if not cook.readings:
        raise ValueRefused(
            "the cook holds no dome reading", "so nothing can be learned", "note the dome now and then"
        )
    rng = np.random.default_rng(seed)
    current = before or Learned(cook.kind, draw_z(cook.kind, KEPT * 4, rng), 0)
    apart = max(1.0, (cook.readings[-1].at_min - cook.readings[0].at_min) / APART_MIN + 1.0)
    contradicted = False
    for turn in range(ROUNDS):
        z = draw_z(cook.kind, TRIED, rng) if before is None and turn == 0 else current.draw(TRIED, rng)
        misses = replay(cook, z, rng)
        sd = np.full(len(misses), np.hypot(MODEL_SD, weighing.READING_SD))
        contradicted = weighing.contradicted(misses, sd)
        log = weighing.log_likelihood(misses, sd, apart) / ROUNDS
        w = weighing.weights(log)
        current = replace(current, z=_unshrunk(z[:, weighing.systematic(w, KEPT)], weighing.effective_size(w)))
    z = current.z
    if contradicted:  # nothing fits: keep the middle, admit more
        z = z.mean(axis=1, keepdims=True) + WIDENED * (z - z.mean(axis=1, keepdims=True))
    return Learned(cook.kind, z, current.cooks + 1, contradicted)


def _unshrunk(z: np.ndarray, effective: float) -> np.ndarray:
    """Members with the spread that drawing few of them took away: n / (n - 1) of the variance, as for any sample."""
    middle = z.mean(axis=1, keepdims=True)
    return middle + np.sqrt(effective / max(effective - 1.0, 1.0)) * (z - middle)


def replay(cook: Cook, z: np.ndarray, rng: np.random.Generator) -> np.ndarray:
    """Reading minus model (readings, n) when each cooker z does the cook from lighting on."""
    n = z.shape[1]
    cookers = from_z(cook.kind, z, float(cook.deflector_in))
    degrees = 68.0 + 15.0 * rng.standard_normal(n) if cook.ambient_f is None else np.full(n, cook.ambient_f)
    fixed = Fixed(cookers, Surroundings(ambient=air.kelvin(degrees)))
    blow = wind(Known(0.0, (), windy=cook.windy), n, rng)
    fuel = rng.uniform(0.4, 1.0, n) if cook.fuel_share is None else np.full(n, cook.fuel_share)
    x = state.fresh(fixed, rng.uniform(0.06, 0.25, n), fuel)
    lighting = Move(0.0, bottom=np.full(n, cook.bottom), top=np.full(n, cook.top), crack=0.3, wind=blow)
    x = run(x, fixed, [lighting], cook.lid_shut_at_min).x
    u = Controls(np.full(n, cook.bottom), np.full(n, cook.top), 0.0, blow)
    shift = cook.lid_shut_at_min
    later = [replace(m, at_min=max(m.at_min - shift, 0.0)) for m in cook.moves]
    readings = [r for r in cook.readings if r.at_min >= shift]
    stops = tuple(r.at_min - shift for r in readings)
    plan = turns([later], u.bottom, u.top, [np.arange(n)])
    times, shown, _, _ = follow(x, fixed, u, plan, max(stops, default=0.0), stops)
    at = [int(np.argmin(np.abs(times - stop))) for stop in stops]
    return np.array([r.dome_f for r in readings])[:, None] - shown[at]


@dataclass(frozen=True)
class LearnedFact:
    """One thing learned: value and its 80 % range, the same of cookers at large, and where among them (0..1)
    it lies.

    sure: the range has moved off the middle of cookers at large.
    """

    name: str
    unit: str
    likely: float
    low: float
    high: float
    usual: float
    rank: float
    sure: bool


def facts(learned: Learned, target_f: float = 275.0) -> list[LearnedFact]:
    """What is worth telling: gasket leak, thermometer offset, top opening that holds target_f (against
    cookers at large).
    """
    rng = np.random.default_rng(5)
    own, others = from_z(learned.kind, learned.z), from_z(learned.kind, draw_z(learned.kind, KEPT, rng))
    pairs = [
        ("leak", "m2", own.leak, others.leak),
        ("gauge_offset", "F", own.gauge_offset, others.gauge_offset),
        ("top_opening", "1", _opening(own, target_f), _opening(others, target_f)),
    ]
    return [_fact(*pair) for pair in pairs]


def _opening(cookers, target_f: float) -> np.ndarray:
    fixed = Fixed(cookers, Surroundings())
    x = state.fresh(fixed, 0.3, 0.7)
    x = run(x, fixed, [Move(0.0, bottom=1.0, top=1.0), Move(12.0, bottom=INCH, top=0.15)], 60.0).x
    return hold_each(fixed, x, target_f, np.zeros(fixed.n), INCH)[0]


def _fact(name: str, unit: str, own: np.ndarray, others: np.ndarray) -> LearnedFact:
    low, likely, high = (float(v) for v in np.quantile(own, (0.1, 0.5, 0.9)))
    usual = float(np.median(others))
    return LearnedFact(
        name, unit, likely, low, high, usual, float((others < likely).mean()), not low < usual < high
    )
