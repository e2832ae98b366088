"""Chosen numbers: within their limits, better than nothing, and in the right direction."""

from itertools import pairwise

import pytest

from advisor.thermal.choose import Limits, choose_choke, choose_lift, choose_opening
from advisor.thermal.ensemble import gather
from advisor.thermal.hold import hold_opening, humble
from advisor.thermal.known import Known, Reading


def ensemble(target, *readings, **known):
    spread = tuple(Reading(-10.0 * k, f) for k, f in zip(range(len(readings) - 1, -1, -1), readings))
    return gather(Known(target, spread, **{"bottom": 0.25, "top": 0.15, "lit_ago_min": 150, **known}))


@pytest.fixture(scope="module")
def far_over():
    return ensemble(275.0, 290, 330, 375, top=0.5)


@pytest.fixture(scope="module")
def steady():
    return ensemble(250.0, 250, 250, 250, 250, top=0.12)


def test_choke_stays_in_its_limits(far_over):
    limits = Limits(min_wait_min=8.0, max_wait_min=15.0, max_burps=1)
    chosen = choose_choke(far_over, limits)
    assert 8.0 <= chosen.choke_min <= 15.0 and chosen.burps <= 1
    assert 5.0 <= chosen.look_min <= 15.0
    assert chosen.actions[0].top == 0.0 and chosen.actions[-1].bottom == limits.bottom


def test_choke_beats_leaving_it(far_over):
    chosen = choose_choke(far_over)
    assert chosen.expected_error_f < 0.6 * chosen.error_if_nothing_f
    assert chosen.fire_lost_share < 0.1
    assert chosen.reopen_at_f < 375.0


def test_further_over_chokes_longer():
    near, far = ensemble(275.0, 290, 305, 315, top=0.3), ensemble(250.0, 380, 400, 420, top=0.5, soaked=True)
    assert choose_choke(far).choke_min > choose_choke(near).choke_min


def test_the_burps_keep_their_distance(far_over):
    limits = Limits(min_wait_min=30.0, max_wait_min=30.0)
    times = [a.at_min for a in choose_choke(far_over, limits).actions if a.burp]
    assert all(b - a >= limits.burp_gap_min for a, b in pairwise(times))


def test_a_steady_fire_is_left_alone(steady):
    chosen = choose_opening(steady)
    assert chosen.actions == () or abs(chosen.top_after - 0.12) < 0.06


def test_a_small_error_asks_for_a_move_the_right_way():
    hot = choose_opening(ensemble(250.0, 275, 280, 285, top=0.2))
    cool = choose_opening(ensemble(300.0, 262, 260, 260, top=0.12))
    assert hot.top_after < 0.2 and cool.top_after > 0.12


def test_one_move_goes_only_so_far(far_over):
    limits = Limits(max_ratio=1.5)
    assert choose_opening(far_over, limits, current_top=0.5).top_after >= 0.5 / 1.5 - 1e-9


def test_a_low_fire_is_lifted():
    chosen = choose_lift(ensemble(300.0, 215, 212, 210, top=0.08))
    assert chosen.actions and chosen.expected_error_f < 0.8 * chosen.error_if_nothing_f
    assert all(b.at_min - a.at_min >= 5.0 for a, b in pairwise(chosen.actions))


def test_holding_more_needs_more_opening(steady):
    held = [hold_opening(steady, target) for target in (225.0, 275.0, 325.0)]
    likely = [h.likely for h in held]
    assert likely == sorted(likely)
    assert all(h.low <= h.likely <= h.high and h.held_share > 0.6 for h in held)


def test_holding_agrees_with_what_holds(steady):
    held = hold_opening(steady, 250.0)
    assert held.low < 0.13 and held.high > 0.08


def test_a_person_can_set_it():
    assert humble(0.0734) == 0.07
    assert humble(0.33) == 0.35
    assert humble(1.0) == 1.0
