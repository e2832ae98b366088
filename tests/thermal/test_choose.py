"""Numbers chosen on the ensemble: in the right direction, better than nothing, and the same when the same is asked."""

import numpy as np
import pytest

from advisor.thermal.choose import BURP_F, Setting, Turn, left_alone, turned
from advisor.thermal.ensemble import gather
from advisor.thermal.hold import hold_opening
from advisor.thermal.known import Known, Reading

TOPS = (0.02, 0.05, 0.1, 0.2, 0.4, 1.0)
SETTINGS = [Setting(0.25, top) for top in TOPS]


def ensemble(target, *readings, **known):
    spread = tuple(Reading(-10.0 * k, f) for k, f in zip(range(len(readings) - 1, -1, -1), readings, strict=True))
    return gather(Known(target, spread, **{"bottom": 0.25, "top": 0.15, "lit_ago_min": 150, **known}))


@pytest.fixture(scope="module")
def far_over():
    return ensemble(275.0, 290, 330, 375, top=0.5)


@pytest.fixture(scope="module")
def steady():
    return ensemble(250.0, 250, 250, 250, 250, top=0.12)


def best(found):
    return TOPS[int(np.argmin(found))]


def test_a_steady_fire_is_best_left_as_it_stands(steady):
    assert best(left_alone(steady, SETTINGS)) == 0.1


def test_a_dome_over_wants_less_air_and_one_under_more(steady):
    hot, cool = ensemble(250.0, 275, 280, 285, top=0.2), ensemble(300.0, 262, 260, 260, top=0.12)
    assert best(left_alone(hot, SETTINGS)) < 0.2 and best(left_alone(cool, SETTINGS)) > 0.12


def test_the_same_question_has_the_same_answer(steady):
    assert (left_alone(steady, SETTINGS) == left_alone(steady, SETTINGS)).all()


def test_a_setting_that_starves_the_fire_costs_more_than_its_error(far_over):
    shut, = left_alone(ensemble(250.0, 200, 195, 190, soaked=True), [Setting(0.0, 0.0)])
    kept, = left_alone(ensemble(250.0, 200, 195, 190, soaked=True), [Setting(0.25, 0.15)])
    assert shut > kept


def test_a_choke_beats_leaving_it_and_turns_later_with_a_smaller_lead(far_over):
    leads = (45.0, 20.0, 10.0)
    found = turned(far_over, [Turn(Setting(0.0, 0.0), lead, Setting(0.25, 0.12)) for lead in leads])
    alone, = left_alone(far_over, [Setting(0.25, 0.5)])
    assert min(one.error_f for one in found) < 0.7 * alone
    minutes = [one.turned_min for one in found]
    assert minutes == sorted(minutes) and all(minute is not None for minute in minutes)


def test_a_burp_costs_little_more_than_its_lid(far_over):
    none, two = turned(far_over, [Turn(Setting(0.0, 0.0), 20.0, Setting(0.25, 0.12), burps) for burps in (0, 2)])
    assert none.error_f < two.error_f + 3.0 and two.error_f < none.error_f + 2 * BURP_F + 3.0


def test_a_low_fire_is_lifted_and_closed_before_it_is_there():
    low = ensemble(300.0, 215, 212, 210, top=0.08)
    found = turned(low, [Turn(Setting(1.0, 1.0), -lead, Setting(0.25, 0.3)) for lead in (15.0, 50.0)])
    alone, = left_alone(low, [Setting(0.25, 0.08)])
    assert all(one.error_f < alone for one in found)
    assert found[1].turned_min <= found[0].turned_min


def test_a_turn_that_never_comes_is_said():
    cold = ensemble(300.0, 215, 212, 210, top=0.08)
    never, = turned(cold, [Turn(Setting(0.25, 0.03), -15.0, Setting(0.25, 0.3))])
    assert never.turned_min is None


def test_holding_more_needs_more_opening(steady):
    held = [hold_opening(steady, target) for target in (225.0, 275.0, 325.0)]
    likely = [h.likely for h in held]
    assert likely == sorted(likely)
    assert all(h.low <= h.likely <= h.high and h.held_share > 0.6 for h in held)


def test_holding_agrees_with_what_holds(steady):
    held = hold_opening(steady, 250.0)
    assert held.low < 0.13 and held.high > 0.08
