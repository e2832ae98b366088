"""Everything that watches one cooker: readings in, what is worth saying out. Memory is bounded however long it runs."""

from collections import deque
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from statistics import median
from typing import Literal

from advisor.watching import leaving, lid, probes, swing
from advisor.watching.lines import NORMAL_MAD
from advisor.watching.scene import Family, Scene, Sighting
from advisor.watching.spell import Spell
from advisor.watching.thinning import SLOT_MIN, Thinner

WINDOW_MIN = 95.0                       # what the slowest detector looks at, and a little
HELD_MIN, HELD_SPREAD_F = 30.0, 6.0     # without a target: what it has held for so long, so steadily, is what is wanted
# family -> (minutes a sighting must last, °F worse to be said again): judgement, borne out by bench_watch.py
PATIENCE: dict[Family, tuple[float, float]] = {
    "hot": (0.5, 40.0), "cold": (1.0, 40.0), "swing": (2.0, 20.0),
    **{probe: (0.0, 1e9) for probe in ("dome", "grate", "meat", "ambient")}}
SWING_EVERY_MIN = 2.0                   # a swing takes many minutes: no need to look for it at every slot
LATEST = 8                              # slots in which a lid shows


@dataclass(frozen=True, slots=True)
class Event:
    """At a minute: an alarm (what was seen), a lid that was opened or closed, or a spell that is over (its family)."""

    at: float
    what: Literal["alarm", "lid_opened", "lid_closed", "over"]
    family: Family | Literal[""] = ""
    seen: Sighting | None = None


class Watcher:
    """target_f: what is wanted; None: what it holds."""

    def __init__(self, target_f: float | None = None) -> None:
        self.target_f = target_f
        self.dome: deque[tuple[float, float]] = deque(maxlen=round(WINDOW_MIN / SLOT_MIN))
        self.probes: dict[str, probes.ProbeState] = {}
        self.dips: deque[lid.Dip] = deque(maxlen=8)
        self._thinners: dict[str, Thinner] = {}
        self._spells = {family: Spell(*patience) for family, patience in PATIENCE.items()}
        self._held_f: float | None = None
        self._swing_due = 0.0

    def feed(self, minute: float, values: Mapping[str, float]) -> list[Event]:
        """Readings of one moment, probe -> °F; what is worth saying of the half minute they close."""
        events: list[Event] = []
        for probe, value in values.items():
            thinner = self._thinners.setdefault(probe, Thinner())
            if closed := thinner.add(minute, value):
                events += self._closed(probe, *closed)
        return events

    def silence(self, now: float) -> list[Event]:
        """Time goes on and nothing comes."""
        return list(self._watch_probes(now))

    def on(self, family: Family) -> bool:
        """Whether an alarm of the family was said and is not over."""
        return self._spells[family].on

    def standing(self) -> list[Event]:
        """Alarms about the fire that were said, as they stand after the last reading."""
        if not self.dome:
            return []
        now = self.dome[-1][0]
        scene = self.scene(now)
        looks = {"hot": leaving.hot, "cold": leaving.cold, "swing": swing.look}
        seen = {family: look(scene) for family, look in looks.items() if self.on(family)}
        return [Event(now, "alarm", family, sighting) for family, sighting in seen.items() if sighting]

    def pace(self) -> float | None:
        """°F a minute over the last minutes; None where too little was read."""
        line = self.scene(self.dome[-1][0]).line(leaving.TELLING_MIN) if self.dome else None
        return None if line is None else round(line.slope, 2)

    @property
    def aim_f(self) -> float | None:
        """What is wanted: the target, else what the dome has held."""
        return self.target_f if self.target_f is not None else self._held_f

    def scene(self, now: float) -> Scene:
        points = list(self.dome)
        if self.dips:
            points = [point for point in points if not any(dip.spoils(point[0]) for dip in self.dips)]
        if self.target_f is None:
            self._held_f = _held(points, now, self._held_f)
        return Scene(now, points, self.aim_f, self.target_f is not None, any(dip.spoils(now) for dip in self.dips))

    # -- one closed slot ----------------------------------------------------------------------------------------------

    def _closed(self, probe: str, minute: float, value_f: float) -> Iterator[Event]:
        before = self.probes.get(probe)
        self.probes[probe] = before.then(minute, value_f) if before else probes.ProbeState.first(minute, value_f)
        if probe == self._fire_probe():
            self.dome.append((minute, value_f))
            yield from self._watch_lid(minute)
            yield from self._watch_fire(minute)
        yield from self._watch_probes(minute)

    def _fire_probe(self) -> str:
        """The dome where there is one, else the grate: the fire is judged by it."""
        return "dome" if "dome" in self.probes else "grate"

    def _watch_lid(self, now: float) -> Iterator[Event]:
        latest = [self.dome[at] for at in range(max(0, len(self.dome) - LATEST), len(self.dome))]
        if self.dips and self.dips[-1].lasts:
            self.dips[-1] = lid.followed(self.dips[-1], latest)
            if self.dips[-1].closed is not None:
                yield Event(now, "lid_closed")
        elif dip := lid.opened(latest):
            self.dips.append(dip)
            yield Event(now, "lid_opened")

    def _watch_fire(self, now: float) -> Iterator[Event]:
        if any(self._spells[probe].on for probe in ("dome",)):
            return  # the probe itself is in doubt
        scene = self.scene(now)
        if not scene.settling:  # while it is, trouble is neither seen nor gone
            yield from self._step("hot", leaving.hot(scene), now)
            yield from self._step("cold", leaving.cold(scene), now)
        if now >= self._swing_due:
            self._swing_due = now + SWING_EVERY_MIN
            yield from self._step("swing", swing.look(scene), now)

    def _watch_probes(self, now: float) -> Iterator[Event]:
        for probe, state in self.probes.items():
            yield from self._step(probe, probes.look(probe, state, now), now)

    def _step(self, family: Family, seen: Sighting | None, now: float) -> Iterator[Event]:
        before = self._spells[family]
        self._spells[family], say = before.step(seen, now)
        if say:
            yield Event(now, "alarm", family, seen)
        elif before.on and not self._spells[family].on:
            yield Event(now, "over", family)


def _held(points: list[tuple[float, float]], now: float, before: float | None) -> float | None:
    """What the dome has held, steadily, for half an hour up to ten minutes ago; what it held before where it has not."""
    values = [value for minute, value in points if now - HELD_MIN - 10.0 < minute <= now - 10.0]
    if len(values) < 8 or points[0][0] > now - HELD_MIN - 8.0:
        return before
    middle = median(values)
    spread = NORMAL_MAD * median(abs(value - middle) for value in values)
    return middle if spread <= HELD_SPREAD_F and before is None else before
