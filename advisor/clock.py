"""Where the time comes from: the only module that may read the machine's clock."""

import time
from dataclasses import dataclass
from datetime import datetime
from typing import Protocol

from advisor.errors import ClockRefused


class Clock(Protocol):
    """Minutes since some start; never going back."""

    def minutes(self) -> float: ...

    def minute_of_day(self) -> int | None: ...


class WallClock:
    """The machine's own clock, in minutes since this object was made."""

    def __init__(self) -> None:
        self._start = time.monotonic()

    def minutes(self) -> float:
        return (time.monotonic() - self._start) / 60

    def minute_of_day(self) -> int | None:
        """Local minutes since midnight, for "eating at 7"."""
        return _minute_of_day()


class EpochClock:
    """The machine's clock in minutes since 1970 began (UTC): what it says can be kept and gone on with after a restart.

    Set back by hand it stands still until it has caught up.
    """

    def __init__(self) -> None:
        self._latest = 0.0

    def minutes(self) -> float:
        self._latest = max(self._latest, time.time() / 60)
        return self._latest

    def minute_of_day(self) -> int | None:
        return _minute_of_day()


def _minute_of_day() -> int:
    now = datetime.now()
    return now.hour * 60 + now.minute


def pause(seconds: float) -> None:
    """Do nothing for so long."""
    time.sleep(seconds)


def seconds() -> float:
    """To tell how long something took."""
    return time.monotonic()


class SetClock:
    """A clock the caller sets, for `pipe`, transcripts and tests."""

    def __init__(self, minutes: float = 0.0, day_minute: int | None = None) -> None:
        self._minutes, self._day_start = minutes, day_minute

    def minutes(self) -> float:
        return self._minutes

    def minute_of_day(self) -> int | None:
        return None if self._day_start is None else (self._day_start + int(self._minutes)) % 1440

    def set(self, minutes: float) -> None:
        """Move to `minutes`; raises ClockRefused when that lies in the past."""
        if minutes < self._minutes:
            raise ClockRefused(
                f"at_min {minutes:g} lies before {self._minutes:g}",
                "a cook's clock never goes back",
                "send the time now, or reset to start over",
            )
        self._minutes = minutes


@dataclass(frozen=True, slots=True)
class TalkClock:
    """The time of one talk: the caller's minutes where they are sent, a real clock's between them; never going back.

    now_min: the minute of the last turn; sent_min: the last minute sent; kept_at: what the real clock said at it.
    """

    kept_at: float
    now_min: float = 0.0
    sent_min: float = 0.0

    def at(self, at_min: float | None, real: float) -> float:
        """The minute of a turn sent with `at_min`. Raises ClockRefused when that lies before one sent earlier."""
        if at_min is None:
            return self.now_min + max(0.0, real - self.kept_at)
        if at_min < self.sent_min:
            raise ClockRefused(f"at_min {at_min:g} lies before {self.sent_min:g}", "a cook's clock never goes back",
                               "send the time now, or reset to start over")
        return max(at_min, self.now_min)

    def kept(self, now: float, at_min: float | None, real: float) -> "TalkClock":
        """The clock once a turn at the minute `now` has been taken."""
        return TalkClock(real, now, self.sent_min if at_min is None else at_min)
