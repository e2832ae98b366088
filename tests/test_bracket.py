"""What a cook's settings bound: too much air where the dome climbed on above, too little where it sank on below."""

from math import inf

import pytest

from advisor.bracket import LASTS_MIN, WITHIN, Bracket, bracket
from advisor.record import Record, Stretch


def stretch(*legs, step=4.0, way=-2.0):
    """legs: (change of air, minutes, first °F off the target, pace); a reading every `step` minutes."""
    readings, moves, minute, end = [], [], 0.0, way
    for change, minutes, off, pace in legs:
        if minute:
            moves.append((minute, change))
            end += change
        readings += [(minute + t, off + pace * t) for t in range(1, int(minutes), int(step))]
        minute += minutes
    return Record(now=Stretch(0.0, end, tuple(readings), tuple(moves))), minute


def test_a_dome_that_climbs_on_above_bounds_from_above():
    record, now = stretch((0.0, 20, 5.0, 2.0))
    assert bracket(record, -2.0, now) == Bracket(-inf, -2.0)
    assert bracket(record, -2.0, now).within(-1.0) == pytest.approx(-2.0 - WITHIN)


def test_a_dome_that_sinks_on_below_bounds_from_below():
    record, now = stretch((0.0, 20, -5.0, -2.0))
    assert bracket(record, -2.0, now) == Bracket(-2.0, inf)


@pytest.mark.parametrize("off, pace", [(30.0, -2.0), (-30.0, 2.0), (30.0, 0.2), (0.0, 0.1)])
def test_a_dome_that_comes_home_or_stands_bounds_nothing(off, pace):
    record, now = stretch((0.0, 20, off, pace))
    assert bracket(record, -2.0, now) == Bracket()


def test_between_two_bounds_that_are_close_lies_their_middle():
    record, now = stretch((0.0, 20, 5.0, 2.0), (-0.5, 20, -5.0, -2.0))
    found = bracket(record, -2.0, now)
    assert (found.least, found.most) == pytest.approx((-2.5, -2.0))
    assert found.within(-1.0) == pytest.approx(-2.25)


def test_the_newest_word_wins_where_two_contradict():
    record, now = stretch((0.0, 20, -5.0, -2.0), (-1.0, 20, 5.0, 2.0))
    assert bracket(record, -2.0, now) == Bracket(-inf, -3.0)


def test_what_was_shown_long_ago_bounds_nothing():
    record, now = stretch((0.0, 20, 5.0, 2.0), (-0.1, 20 + LASTS_MIN, 0.0, 0.0))
    assert bracket(record, -2.0, now) == Bracket()


def test_embers_under_much_air_are_not_the_vents():
    record, now = stretch((0.0, 20, -5.0, -2.0))
    assert bracket(record, -4.0, now) == Bracket()


def test_two_readings_close_together_tell_no_pace():
    assert bracket(Record(now=Stretch(0.0, -2.0, ((4.0, 10.0), (6.0, 20.0)))), -2.0, 7.0) == Bracket()
