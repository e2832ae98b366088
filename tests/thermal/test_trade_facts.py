"""The trade's facts about a large cooker (common practice, no published source) against the middle large
cooker.

No number of the model was set to one of them. Two do not come out; they are held here at the model's honest
figures
so that a change is noticed: half open, and settling.
"""

import numpy as np
import pytest
import trade_facts


@pytest.fixture(scope="module")
def curve():
    return trade_facts.steady_curve()


def opening(curve, goal_f):
    return float(np.interp(goal_f, curve[1], curve[0]))


def test_barely_open_holds_225(curve):
    assert 0.03 < opening(curve, 225.0) < 0.15


def test_a_bit_more_for_each_25_f(curve):
    steps = np.diff([opening(curve, goal) for goal in (225.0, 250.0, 275.0, 300.0)])
    assert (steps > 0.005).all() and (steps < 0.08).all()


def test_fully_open_is_about_450(curve):
    assert curve[1][-1] == pytest.approx(450.0, abs=75.0)


def test_half_open_is_hotter_than_the_trade_says(curve):
    """Common practice: about half for 325 F. The model holds 325 F at a fifth, and half gives some 480 F."""
    assert 0.15 < opening(curve, 325.0) < 0.30
    assert 440.0 < np.interp(0.5, *curve) < 510.0


def test_300_f_is_reached_in_some_15_minutes():
    assert 10.0 < trade_facts.warm_up_min() < 22.0


def test_settling_takes_longer_than_the_trade_says():
    """Common practice: settling another 15 min. In the model the walls go on soaking: two hours to stay in 15
    F when
    the vents go to their final setting at once; a person who closes down
    in two or three moves sees less of it."""
    assert 60.0 < trade_facts.settling_min() < 180.0


def test_three_hours_at_275_take_no_more_than_a_quarter_basket():
    assert 0.10 < trade_facts.fuel_share(275.0, 3.0) < 0.25


def test_a_whole_basket_is_more_than_a_long_brisket_cook_needs():
    assert trade_facts.fuel_share(250.0, 14.0, food_kg=6.0) < 0.75


def test_smaller_cookers_need_their_top_vent_a_bit_further():
    at_225 = [opening(trade_facts.steady_curve(kind), 225.0) for kind in ("large", "medium", "small")]
    assert at_225 == sorted(at_225)
