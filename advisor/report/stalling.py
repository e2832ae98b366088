"""The stall of a core: the hours in which sweating meat hardly warms. Pure functions of (minute, °F) readings."""

from collections import deque
from collections.abc import Iterator, Sequence

from advisor.report.curve import Span, longest
from advisor.report.story import Point, Points

STALL_SPREAD_F = 6.0  # a core that keeps within this for STALL_MIN stalls: judgement
STALL_MIN = 60.0
STALL_BETWEEN_F = (140.0, 185.0)  # where large cuts stall: common practice, no published source
STALL_READINGS = 3    # two equal readings an hour apart are no stall


def stall(points: Points) -> Span | None:
    """The longest time in which the core hardly moved where cores stall; None when there was none."""
    low, high = STALL_BETWEEN_F
    flat = [span for run in _runs(points, low, high) for span in _flat(run)]
    return longest([(a, b) for a, b in flat if b - a >= STALL_MIN])


def _runs(points: Points, low: float, high: float) -> Iterator[list[Point]]:
    """Stretches of readings that follow each other without one outside of low..high."""
    run: list[Point] = []
    for point in points:
        if low <= point[1] <= high:
            run.append(point)
        elif run:
            yield run
            run = []
    yield run


def _flat(run: Sequence[Point]) -> Iterator[Span]:
    """For every reading, the time since the earliest from which on all lie within STALL_SPREAD_F."""
    lows: deque[int] = deque()
    highs: deque[int] = deque()
    start = 0
    for end, (minute, value) in enumerate(run):
        while lows and run[lows[-1]][1] >= value:
            lows.pop()
        while highs and run[highs[-1]][1] <= value:
            highs.pop()
        lows.append(end)
        highs.append(end)
        while run[highs[0]][1] - run[lows[0]][1] > STALL_SPREAD_F:
            start += 1
            for queue in (lows, highs):
                if queue[0] < start:
                    queue.popleft()
        if end - start + 1 >= STALL_READINGS:
            yield run[start][0], minute
