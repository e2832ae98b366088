"""The time of one conversation on `pipe`: the caller's clock where it is sent, the real one where it is not."""

from advisor.clock import Clock
from advisor.errors import ClockRefused


class CallersClock:
    """Never goes back. `at` only looks; `keep` makes it so, once the line has been taken."""

    def __init__(self, real: Clock) -> None:
        self._real = real
        self.restart()

    def restart(self) -> None:
        self._now, self._sent, self._kept_at = 0.0, 0.0, self._real.minutes()

    def at(self, at_min: float | None) -> float:
        """The minute of a line sent with `at_min`. Raises ClockRefused when that lies before one sent earlier."""
        if at_min is None:
            return self._now + self._real.minutes() - self._kept_at
        if at_min < self._sent:
            raise ClockRefused(f"at_min {at_min:g} lies before {self._sent:g}", "a cook's clock never goes back",
                               "send the time now, or reset to start over")
        return max(at_min, self._now)

    def keep(self, now: float, at_min: float | None) -> None:
        """The line has been taken."""
        self._now, self._kept_at = now, self._real.minutes()
        self._sent = self._sent if at_min is None else at_min
