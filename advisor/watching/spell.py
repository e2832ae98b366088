"""One alarm a spell: it is said once it has been seen for long enough, again only when it has grown worse, and a new
spell begins only after it has been gone for a while.
"""

from dataclasses import dataclass, replace

from advisor.watching.scene import Sighting

LOST_MIN = 15.0      # a sighting that comes back sooner belongs to the same spell: judgement


@dataclass(frozen=True)
class Spell:
    """seen_since: of the sighting now; said_f: how bad it was when it was last said, None before; gone_since: when it was
    last seen no more.
    """

    sure_after_min: float
    worse_by_f: float
    seen_since: float | None = None
    said_f: float | None = None
    gone_since: float | None = None

    def step(self, sighting: Sighting | None, now: float) -> tuple["Spell", bool]:
        """The spell at this moment, and whether it is to be said now."""
        if sighting is None:
            return self._gone(now), False
        seen = replace(self, seen_since=now if self.seen_since is None else self.seen_since, gone_since=None)
        if now - seen.seen_since < self.sure_after_min:
            return seen, False
        if seen.said_f is None or sighting.amount_f >= seen.said_f + self.worse_by_f:
            return replace(seen, said_f=sighting.amount_f), True
        return seen, False

    @property
    def on(self) -> bool:
        """Whether it was said and is not over."""
        return self.said_f is not None

    def _gone(self, now: float) -> "Spell":
        gone_since = now if self.gone_since is None else self.gone_since
        over = self.said_f is None or now - gone_since >= LOST_MIN
        return replace(self, seen_since=None, said_f=None if over else self.said_f, gone_since=gone_since)
