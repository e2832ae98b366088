"""What the detectors look at, and what they see."""

from dataclasses import dataclass, field
from typing import Literal

from advisor.watching.lines import Line, Points, line_through

Family = Literal["hot", "cold", "swing", "dome", "grate", "meat", "ambient"]
Kind = Literal["overshoot", "drift_up", "dying", "drift_down", "swing", "probe_silent", "probe_out", "probe_flat"]


@dataclass(frozen=True)
class Scene:
    """points: the thinned dome without what a lifted lid spoils; aim_f: the target, or what it has held for long.

    aimed: whether a target was told; settling: the lid was up a short while ago.
    """

    now: float
    points: Points
    aim_f: float | None
    aimed: bool = True
    settling: bool = False
    lines: dict[float, Line | None] = field(default_factory=dict)

    def line(self, length_min: float) -> Line | None:
        """The line through the last minutes; worked out once."""
        if length_min not in self.lines:
            self.lines[length_min] = line_through(self.points, length_min, self.now)
        return self.lines[length_min]


@dataclass(frozen=True, slots=True)
class Sighting:
    """Something seen. amount_f: how bad it is now, in °F, larger is worse; figures fill the words for it."""

    kind: Kind
    amount_f: float
    figures: dict[str, float] = field(default_factory=dict)
