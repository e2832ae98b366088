"""How good the alarms are on simulated cooks: false ones in steady hours, and minutes of warning before trouble."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass

import numpy as np
from cooks import DYING, OVERSHOOTS, SPOILT_AT_MIN, Cooks, spoilt, steady, warming  # noqa: F401  steady: for who judges

from advisor.watching.leaving import BAND_F
from advisor.watching.watcher import Event, Watcher

STEADY_F = 15.0          # while the dome keeps within this of the target the cook is steady, and any alarm is false
AFTER_LID_MIN = 12.0     # a dip of a lifted lid is no loss of steadiness
BEFORE_MIN = 30.0        # an alarm so shortly before the dome leaves is early, not false


@dataclass(frozen=True)
class Warned:
    """before_min: for each cook that left the band, minutes from the first alarm to leaving it; -inf without alarm."""

    name: str
    before_min: np.ndarray

    def share(self) -> float:
        return float((self.before_min > 0.0).mean()) if len(self.before_min) else 1.0


def alarms(log: Iterable[tuple[float, float]], target_f: float | None) -> list[Event]:
    """Every alarm of a watcher that is fed a logged dome."""
    watcher = Watcher(target_f)
    return [event for minute, value in log for event in watcher.feed(minute, {"dome": value}) if event.what == "alarm"]


def false_alarms(cooks: Cooks, mark_f: float, lost: float, seed: int, which: Iterable[int]) -> tuple[list[tuple[int, Event]], float]:
    """Alarms while the cook is steady, and how many hours of that there were."""
    found, hours = [], 0.0
    for i in which:
        end = _steady_until(cooks, i)
        log = [point for point in cooks.logged(i, mark_f, lost, seed) if point[0] < end]
        hours += log[-1][0] / 60.0 if log else 0.0
        found += [(i, event) for event in alarms(log, float(cooks.target_f[i]))]
    return found, hours


def warned(name: str, cooks: Cooks, mark_f: float, lost: float, seed: int, from_min: float) -> Warned:
    """For each cook that was well until from_min and left the band afterwards."""
    leads = []
    for i in range(len(cooks.target_f)):
        off = cooks.true_f[:, i] - cooks.target_f[i]
        out = np.flatnonzero((off > BAND_F) if from_min == 0.0 else (np.abs(off) > BAND_F))
        if not len(out) or from_min and np.abs(off[cooks.minutes < from_min]).max() > STEADY_F:
            continue
        left, family = cooks.minutes[out[0]], "hot" if off[out[0]] > 0 else "cold"
        seen = [event.at for event in alarms(cooks.logged(i, mark_f, lost, seed), float(cooks.target_f[i]))
                if event.family == family and event.at > from_min]
        leads.append(left - seen[0] if seen else -np.inf)
    return Warned(name, np.array(leads))


def kinds(n: int, seed: int) -> dict[str, tuple[Callable[[], Cooks], float]]:
    """Every kind of trouble: how its cooks are made, and from which minute on it is one."""
    made = {name: (lambda spoil=spoil: spoilt(n, seed, spoil), SPOILT_AT_MIN) for name, spoil in (OVERSHOOTS | DYING).items()}
    return made | {"vents forgotten while warming up": (lambda: warming(n, seed + 1, None), 0.0)}


def _steady_until(cooks: Cooks, i: int) -> float:
    """The minute at which the cook is steady no more, less a while."""
    off = np.abs(cooks.true_f[:, i] - cooks.target_f[i]) > STEADY_F
    for opened, j in cooks.lids:
        if j == i:
            off &= ~((cooks.minutes >= opened - 0.5) & (cooks.minutes < opened + AFTER_LID_MIN))
    lost = np.flatnonzero(off)
    return float(cooks.minutes[lost[0]]) - BEFORE_MIN if len(lost) else np.inf
