"""Labels along a line that must not touch: neighbours joined into one, or moved apart. Pure functions."""

from collections.abc import Sequence


def grouped(places: Sequence[float], width_of_label: float) -> list[tuple[int, int, float]]:
    """(first, last, middle) of runs of `places` (ascending, counted from 1) whose labels would touch otherwise."""
    groups = [(n, n, place) for n, place in enumerate(places, 1)]
    index = 0
    while index + 1 < len(groups):
        one, other = groups[index], groups[index + 1]
        if other[2] - one[2] < _room(one, other) * width_of_label:
            first, last = one[0], other[1]
            groups[index:index + 2] = [(first, last, (places[first - 1] + places[last - 1]) / 2)]
            index = max(0, index - 1)
        else:
            index += 1
    return groups


def _room(*groups: tuple[int, int, float]) -> float:
    """Half the width of each of two labels together; "12-15" takes twice the room of "12"."""
    return sum(1.0 if first != last else 0.5 for first, last, _ in groups)


def spread(places: Sequence[float], apart: float, low: float, high: float) -> list[float]:
    """`places` (ascending) moved as little as needed to lie `apart` from each other, within low..high if they fit."""
    moved = list(places)
    for index, place in enumerate(moved):
        moved[index] = max(place, moved[index - 1] + apart if index else low)
    ceiling = high
    for index in range(len(moved) - 1, -1, -1):
        moved[index] = min(moved[index], ceiling)
        ceiling = moved[index] - apart
    return moved
