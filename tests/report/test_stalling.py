"""The stall of a core against examples worked by hand, and against looking at every pair of readings."""

import random

from advisor.report.stalling import STALL_BETWEEN_F, STALL_MIN, STALL_SPREAD_F, stall


def test_a_stall_is_an_hour_within_six_degrees_where_cores_stall():
    assert stall(((0, 40), (120, 150), (150, 153), (190, 156), (230, 190))) == (120, 190)
    assert stall(((0, 40), (120, 150), (150, 153), (175, 156), (230, 190))) is None    # 55 minutes
    assert stall(((0, 40), (120, 150), (150, 153), (190, 157), (230, 190))) is None    # seven degrees
    assert stall(((0, 200), (60, 201), (120, 202))) is None                            # resting hot, no stall
    assert stall(((0, 150), (90, 152))) is None                                        # two readings show nothing
    assert stall(()) is None


def test_a_reading_outside_ends_it():
    assert stall(((0, 150), (40, 151), (50, 130), (60, 151), (100, 152))) is None


def test_it_finds_what_looking_at_every_pair_finds():
    numbers = random.Random(4)
    for _ in range(60):
        value, points = 139.0, []
        for minute in range(0, 400, 10):
            value += numbers.choice((-1, 0, 1, 1, 2))
            points.append((minute, value))
        found = stall(tuple(points))
        assert (found and found[1] - found[0]) == _longest_slowly(points)


def _longest_slowly(points):
    low, high = STALL_BETWEEN_F
    best = None
    for i in range(len(points)):
        for j in range(i + 2, len(points)):
            values = [value for _, value in points[i:j + 1]]
            if min(values) >= low and max(values) <= high and max(values) - min(values) <= STALL_SPREAD_F:
                best = max(best or 0, points[j][0] - points[i][0])
    return best if best is not None and best >= STALL_MIN else None
