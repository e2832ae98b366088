"""The clock of `pipe`: the caller's minutes, the real ones between them, and never back."""

import pytest

from advisor.clock import SetClock
from advisor.errors import ClockRefused
from advisor.terminal.callersclock import CallersClock


@pytest.fixture
def real():
    return SetClock()


def kept(clock, at_min=None):
    now = clock.at(at_min)
    clock.keep(now, at_min)
    return now


def test_the_callers_minutes_are_taken_as_sent(real):
    clock = CallersClock(real)
    assert [kept(clock, at) for at in (0, 12.5, 12.5, 40)] == [0, 12.5, 12.5, 40]


def test_left_out_the_real_clock_goes_on_from_there(real):
    clock = CallersClock(real)
    kept(clock, 100)
    real.set(3)
    assert kept(clock) == 103
    real.set(5)
    assert kept(clock) == 105


def test_a_minute_before_one_sent_earlier_is_refused_and_changes_nothing(real):
    clock = CallersClock(real)
    kept(clock, 20)
    with pytest.raises(ClockRefused, match="at_min 19 lies before 20"):
        clock.at(19)
    assert kept(clock, 20) == 20


def test_looking_moves_nothing(real):
    clock = CallersClock(real)
    clock.at(50)
    assert kept(clock, 10) == 10


def test_a_minute_the_real_clock_has_passed_does_not_turn_time_back(real):
    clock = CallersClock(real)
    kept(clock, 10)
    real.set(5)
    assert kept(clock) == 15
    assert kept(clock, 12) == 15


def test_restarted_it_takes_any_minute(real):
    clock = CallersClock(real)
    kept(clock, 300)
    clock.restart()
    assert kept(clock, 1) == 1
