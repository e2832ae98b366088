"""A clock that runs faster than the machine's, for tests and for practice: set by DRAFTHAND_CLOCK_RATE, else never used."""

import math
import os

from advisor.clock import Clock
from advisor.errors import CommandRefused

RATE = "DRAFTHAND_CLOCK_RATE"


class PracticeClock:
    """The real clock's minutes from `since` on, made `rate` times as many. since: minutes of the real clock."""

    def __init__(self, real: Clock, rate: float, since: float) -> None:
        self._real, self._rate, self._since = real, rate, since

    def minutes(self) -> float:
        return self._since + (self._real.minutes() - self._since) * self._rate

    def minute_of_day(self) -> int | None:
        return self._real.minute_of_day()


def paced(real: Clock) -> Clock:
    """`real`, or what DRAFTHAND_CLOCK_RATE makes of it: "60", or "60@MINUTE" to run so since that minute of `real`.

    Raises CommandRefused for anything else.
    """
    said = os.environ.get(RATE)
    if not said:
        return real
    rate, _, since = said.partition("@")
    try:
        numbers = float(rate), float(since) if since else real.minutes()
    except ValueError:
        numbers = math.nan, math.nan
    if not all(map(math.isfinite, numbers)) or numbers[0] < 1:
        raise CommandRefused(f"{RATE} is {said!r}", "it makes minutes shorter for tests", "set it to 60, or unset it")
    return PracticeClock(real, *numbers)
