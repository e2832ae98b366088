"""A long curve to about as many points as a picture has pixels, with every peak kept. Pure functions."""

from collections.abc import Iterable, Iterator, Sequence

Point = tuple[float, float]


def thinned(points: Sequence[Point], slots: int) -> list[Point]:
    """`points` (x ascending) with at most four in each of `slots` equal parts of x: first, lowest, highest, last."""
    if len(points) <= 4 * slots:
        return list(points)
    start, width = points[0][0], (points[-1][0] - points[0][0]) / slots
    return [point for slot in _slots(points, start, width) for point in _kept(slot)]


def _slots(points: Iterable[Point], start: float, width: float) -> Iterator[list[Point]]:
    slot: list[Point] = []
    edge = start + width
    for point in points:
        if point[0] >= edge and slot:
            yield slot
            slot = []
            edge += width * max(1, int((point[0] - edge) / width) + 1) if width else 0.0
        slot.append(point)
    yield slot


def _kept(slot: Sequence[Point]) -> list[Point]:
    lowest, highest = (choose(range(len(slot)), key=lambda i: slot[i][1]) for choose in (min, max))
    return [slot[i] for i in sorted({0, lowest, highest, len(slot) - 1})]


def broken(points: Sequence[Point], gap: float) -> list[list[Point]]:
    """The curve in pieces, cut wherever two points lie further apart than `gap`."""
    pieces: list[list[Point]] = []
    for point in points:
        if pieces and point[0] - pieces[-1][-1][0] <= gap:
            pieces[-1].append(point)
        else:
            pieces.append([point])
    return pieces
