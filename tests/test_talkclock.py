"""The clock of a talk: the caller's minutes, the real ones between them, and never back."""

import pytest

from advisor.clock import TalkClock
from advisor.errors import ClockRefused


class Clock:
    """A talk's clock and the real one beside it."""

    def __init__(self):
        self.real, self.talk = 29e6, TalkClock(29e6)

    def take(self, at_min=None):
        now = self.talk.at(at_min, self.real)
        self.talk = self.talk.kept(now, at_min, self.real)
        return now


@pytest.fixture
def clock():
    return Clock()


def test_the_callers_minutes_are_taken_as_sent(clock):
    assert [clock.take(at) for at in (0, 12.5, 12.5, 40)] == [0, 12.5, 12.5, 40]


def test_left_out_the_real_clock_goes_on_from_there(clock):
    clock.take(100)
    clock.real += 3
    assert clock.take() == 103
    clock.real += 2
    assert clock.take() == 105


def test_a_minute_before_one_sent_earlier_is_refused_and_changes_nothing(clock):
    clock.take(20)
    with pytest.raises(ClockRefused, match="at_min 19 lies before 20"):
        clock.take(19)
    assert clock.take(20) == 20


def test_looking_moves_nothing(clock):
    clock.talk.at(50, clock.real)
    assert clock.take(10) == 10


def test_a_minute_the_real_clock_has_passed_does_not_turn_time_back(clock):
    clock.take(10)
    clock.real += 5
    assert clock.take() == 15
    assert clock.take(12) == 15


def test_a_real_clock_set_back_does_not_turn_time_back(clock):
    clock.take(10)
    clock.real -= 60
    assert clock.take() == 10
    clock.real += 1
    assert clock.take() == 11
