"""Bursts of readings to one every half minute: the median of each slot, so that a spike or a lost reading changes nothing."""

from statistics import median

SLOT_MIN = 0.5       # finer than any fire changes; a burst of 100 readings a second makes one of 3,000
MOST_A_SLOT = 200    # of a burst only so many are kept: the median of more is no better


class Thinner:
    """Readings of one probe in, closed slots out. A time that goes back is taken as now."""

    def __init__(self) -> None:
        self._slot: int | None = None
        self._values: list[float] = []
        self._count = 0

    def add(self, minute: float, value_f: float) -> tuple[float, float] | None:
        """The slot that this reading closes: (its middle, its median), or None."""
        slot = int(minute // SLOT_MIN)
        if self._slot is None or slot > self._slot:
            closed = self.close()
            self._slot, self._count = slot, 0
            self._keep(value_f)
            return closed
        self._keep(value_f)
        return None

    def close(self) -> tuple[float, float] | None:
        """What has been gathered so far, as a slot."""
        if not self._values:
            return None
        closed = ((self._slot or 0) + 0.5) * SLOT_MIN, median(self._values)
        self._values = []
        return closed

    def _keep(self, value_f: float) -> None:
        """Once the slot is full, later readings take the place of earlier ones in turn."""
        if len(self._values) < MOST_A_SLOT:
            self._values.append(value_f)
        else:
            self._values[self._count % MOST_A_SLOT] = value_f
        self._count += 1
