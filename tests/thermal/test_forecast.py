"""Forecasts against cooks whose cookers the forecaster does not know, and at the edges of what is known."""

import time

import numpy as np
import pytest
import twins

from advisor.errors import ValueRefused
from advisor.thermal import forecast, state
from advisor.thermal.ensemble import gather
from advisor.thermal.known import Action, Known, Reading, VentMove

OVER = Known(
    275.0,
    (Reading(-20, 290), Reading(-10, 330), Reading(0, 375)),
    bottom=0.25,
    top=0.5,
    lit_ago_min=240,
    soaked=True,
)


@pytest.fixture(scope="module")
def outcomes():
    return [(forecast.forecast(known, plan), after) for known, plan, after in twins.cooks(22, 21)]


def test_intervals_that_say_80_percent_hold_about_as_often(outcomes):
    held = [twins.holds(found[k], after[k][0]) for found, after in outcomes for k in (0, 1)]
    assert 0.72 < np.mean(held) < 0.98


def test_the_dome_two_hours_on_lies_in_its_range_more_often_than_not(outcomes):
    inside = [
        found[k].settles_f[0] <= after[k][1] <= found[k].settles_f[2]
        for found, after in outcomes
        for k in (0, 1)
    ]
    assert np.mean(inside) > 0.6


def test_the_likely_time_is_near(outcomes):
    misses = [
        abs(found[0].likely_min - after[0][0])
        for found, after in outcomes
        if found[0].likely_min is not None and np.isfinite(after[0][0])
    ]
    assert len(misses) >= 6 and np.median(misses) < 20.0


def test_low_likely_high_are_in_order(outcomes):
    for found, _ in outcomes:
        for f in found:
            times = [np.inf if t is None else t for t in (f.low_min, f.likely_min, f.high_min)]
            assert times == sorted(times) and f.settles_f[0] <= f.settles_f[1] <= f.settles_f[2]
            assert 0.0 <= f.back_share <= 1.0 + 1e-9 and f.confidence == 0.8


def test_doing_nothing_about_a_wide_open_vent_costs():
    planned, idle = forecast.forecast(OVER, twins.RECIPE)
    assert idle.back_share < 0.1 < planned.back_share
    assert idle.settles_f[1] > planned.settles_f[1] + 50.0


def test_a_steady_cooker_at_its_goal_is_there_already():
    known = Known(
        250.0, tuple(Reading(-t, 250) for t in (30, 20, 10, 0)), bottom=0.25, top=0.12, lit_ago_min=200
    )
    idle = forecast.forecast(known, [])[1]
    assert idle.likely_min is not None and idle.likely_min < 3.0


def test_more_readings_narrow_the_range():
    one = forecast.forecast(Known(275.0, (Reading(0, 230),), bottom=0.25, top=0.12), [])[1]
    readings = tuple(Reading(-t, 230) for t in (45, 30, 20, 10, 0))
    many = forecast.forecast(Known(275.0, readings, bottom=0.25, top=0.12), [])[1]
    assert many.settles_f[2] - many.settles_f[0] < one.settles_f[2] - one.settles_f[0]


def test_readings_that_fit_nothing_are_called_so_and_widen():
    wild = Known(
        275.0, (Reading(-6, 250), Reading(-4, 600), Reading(-2, 180), Reading(0, 275)), bottom=0.25, top=0.2
    )
    calm = Known(275.0, tuple(Reading(-t, 275) for t in (6, 4, 2, 0)), bottom=0.25, top=0.2)
    odd, plain = (forecast.forecast(known, [])[1] for known in (wild, calm))
    assert odd.contradicted and not plain.contradicted
    assert odd.settles_f[2] - odd.settles_f[0] > plain.settles_f[2] - plain.settles_f[0]


def test_nearly_nothing_known_is_enough():
    planned, idle = forecast.forecast(Known(250.0, (Reading(0, 320),)), [Action(0, top=0.05)])
    assert planned.settles_f[1] < idle.settles_f[1]


@pytest.mark.parametrize(
    "changed",
    [
        {"windy": True},
        {"gasket_leaks": True},
        {"ash_heavy": True},
        {"fuel_share": 0.05},
        {"deflector_in": False},
        {"food_on": True, "core_f": 150.0},
        {"ambient_f": 0.0},
        {"soaked": False},
        {"kind": "small"},
        {"bottom": 0.0, "top": 0.0},
        {"bottom": 1.0, "top": 1.0},
        {"moves": (VentMove(0.0, 0.0, 0.0, True),)},
    ],
)
def test_whatever_is_known_gives_finite_figures(changed):
    known = Known(**{"target_f": 275.0, "readings": (Reading(-10, 340), Reading(0, 350)), **changed})
    for found in forecast.forecast(known, twins.RECIPE):
        assert np.isfinite(found.settles_f).all() and np.isfinite(found.lowest_f) and found.effective >= 9.0


def test_a_leaky_gasket_chokes_less():
    shut = [Action(0, bottom=0.0, top=0.0)]
    ends = []
    for leaks in (False, True):
        known = Known(250.0, (Reading(0, 350),), bottom=0.25, top=0.3, lit_ago_min=180, gasket_leaks=leaks)
        ends.append(forecast.forecast(known, shut)[0].settles_f[1])
    assert ends[1] > ends[0] + 10.0


def test_no_reading_is_refused_with_what_to_do():
    with pytest.raises(ValueRefused, match="read the dome"):
        gather(Known(250.0, ()))


def test_the_same_words_give_the_same_forecast():
    assert forecast.forecast(OVER, twins.RECIPE) == forecast.forecast(OVER, twins.RECIPE)


def test_staying_in_the_band_is_not_passing_through_it():
    times = np.arange(0.0, 61.0)
    falling = np.interp(times, [0, 60], [400, 100])[:, None]
    settling = np.interp(times, [0, 20, 60], [400, 270, 270])[:, None]
    first = forecast.first_stay(times, np.hstack([falling, settling]), 270.0, 10.0, 5.0)
    assert first[0] == np.inf and first[1] == pytest.approx(19.0, abs=1.0)


def test_a_forecast_takes_a_fraction_of_a_second():
    """The bound that counts is in tests/benchmarks; this one only catches a forecast gone slow by a
    factor.
    """
    forecast.forecast(OVER, twins.RECIPE)
    started = time.perf_counter()
    forecast.forecast(OVER, twins.RECIPE)
    assert time.perf_counter() - started < 0.4


def test_a_vent_moved_in_the_minute_of_a_reading_was_moved_after_it():
    """Seen in a talk: "320" and "done" within a minute; the fire was taken to be at rest behind the vents as they stood then."""
    read, shut = Reading(0.0, 320.0), 0.06
    same, later = (gather(Known(250.0, (read,), bottom=0.5, top=0.5, moves=(VentMove(minute, top=shut),)))
                   for minute in (0.0, 0.1))
    assert same.x[state.LIT].mean() == pytest.approx(later.x[state.LIT].mean(), rel=0.05)
