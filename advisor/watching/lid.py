"""A lid that was lifted, told from the shape of the dip: down far faster than any fire dies, and up again within minutes."""

from dataclasses import dataclass, replace

from advisor.watching.lines import Points

FALL_F = 14.0             # at least so far ... more than a thermometer's marks and wavering make: judgement
FALL_F_PER_MIN = 9.0      # ... and so fast: shut vents take several minutes for it (tests/benchmarks/bench_watch.py)
WITHIN_MIN = 2.0          # the fall is looked for in so short a time
BACK_WITHIN_F = 8.0       # so near to what it was before, the dip is over
# A dip that lasts longer is no lifted lid, or one that was left open: it is judged like any other. A shallow one that does
# not turn is given less: vents shut too far make the same beginning. Judgement.
LONGEST_MIN, SHALLOW_MIN, SHALLOW_F = 20.0, 5.0, 40.0
TURNED_F = 6.0            # risen so far from its lowest, it has turned
FLARE_MIN = 10.0          # after it the fire, fed with fresh air, runs high for so long: judgement


@dataclass(frozen=True, slots=True)
class Dip:
    """opened: the last minute before the fall; was_f: the dome then; lowest_f: since; closed: when it was back; given_up:
    when it was found to be no lid.
    """

    opened: float
    was_f: float
    lowest_f: float
    closed: float | None = None
    given_up: float | None = None

    @property
    def lasts(self) -> bool:
        return self.closed is None and self.given_up is None

    def spoils(self, minute: float) -> bool:
        """Whether a reading says nothing about the fire because of it."""
        if minute <= self.opened or self.given_up is not None:
            return False
        return self.closed is None or minute < self.closed + FLARE_MIN


def opened(points: Points) -> Dip | None:
    """The dip that the last reading begins."""
    if len(points) < 2:
        return None
    now, value = points[-1]
    before = [(minute, was) for minute, was in points[:-1] if minute >= now - WITHIN_MIN]
    falls = [Dip(minute, was, value) for minute, was in before
             if was - value >= FALL_F and (was - value) / (now - minute) >= FALL_F_PER_MIN]
    return max(falls, key=lambda dip: dip.opened, default=None)


def followed(dip: Dip, points: Points) -> Dip:
    """The same dip after the last reading."""
    now, value = points[-1]
    dip = replace(dip, lowest_f=min(value, dip.lowest_f))
    if value >= dip.was_f - BACK_WITHIN_F:
        return replace(dip, closed=now)
    shallow = dip.was_f - dip.lowest_f < SHALLOW_F and value < dip.lowest_f + TURNED_F
    if now - dip.opened >= (SHALLOW_MIN if shallow else LONGEST_MIN):
        return replace(dip, given_up=now)
    return dip
