"""Arithmetic on readings, the vent chart, and where water boils."""

import math

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from advisor.airway import Airway
from advisor.derivation import derive
from advisor.looks import QUIET_MIN, left_over, move_in
from advisor.pace import level_of, pace_of, trend_of
from advisor.placing import LARGEST_NUDGE, WIDE
from advisor.profile import CookerProfile
from advisor.situation import Situation
from advisor.ventchart import opening_for
from advisor.water import boiling_point_f, pressure_pa

PLAIN = CookerProfile()


@pytest.fixture
def known(rulebook):
    def derived(*turns, now=0.0, profile=PLAIN):
        situation = Situation()
        for minute, facts in turns:
            checked = {name: rulebook.vocabulary.check(name, value) for name, value in facts.items()}
            situation = situation.tell(checked, "said", rulebook.vocabulary, minute)
        facts = derive(situation, rulebook.vocabulary, rulebook.catalogue.vent_chart, profile, now)
        return {name: fact.value for name, fact in facts.items()}

    return derived


def test_over_follows_from_reading_and_target(known):
    assert known((0, {"dome_f": 350, "target_f": 250}))["over_f"] == 100


def test_reading_follows_from_target_and_over(known):
    assert known((0, {"over_f": 40, "target_f": 250}))["dome_f"] == 290


def test_inches_become_a_fraction_by_the_travel_of_this_cooker(known):
    assert known((0, {"bottom_vent_in": 1}))["bottom_vent"] == 0.25
    assert known((0, {"bottom_vent_in": 1}), profile=CookerProfile(bottom_travel_in=5))["bottom_vent"] == 0.2


def test_two_readings_say_where_it_heads(known):
    facts = known((0, {"dome_f": 350}), (10, {"dome_f": 330}), now=10)
    assert (facts["rate_f_per_min"], facts["trend"]) == (-2, "falling")


def test_what_was_said_of_the_trend_stands(known):
    assert known((0, {"dome_f": 350}), (10, {"dome_f": 330, "trend": "steady"}), now=10)["trend"] == "steady"


def test_old_readings_say_nothing_about_now():
    assert pace_of(((0, 350), (10, 330)), now=60) is None


def test_readings_close_together_are_taken_as_one_line():
    """Steps of the dial: 300, 305, 300 within ten minutes is no pace of a degree a minute."""
    assert abs(pace_of(((0, 300), (5, 305), (10, 300)), now=10)) < 0.2


def test_readings_before_a_move_do_not_make_the_pace_after_it():
    readings = ((0, 380), (6, 235), (12, 305))
    assert pace_of(readings, 12, moved_at=6) > 10
    assert pace_of(readings, 12) < 0


def test_two_readings_at_once_give_no_pace():
    assert pace_of(((5, 350), (5, 330)), now=5) is None


@pytest.mark.parametrize(("rate", "trend"), [(0, "steady"), (0.49, "steady"), (0.5, "rising"), (-3, "falling")])
def test_trend_of_a_rate(rate, trend):
    assert trend_of(rate) == trend


def test_time_near_the_target_runs_from_the_first_of_an_unbroken_row(known):
    facts = known((0, {"dome_f": 300, "target_f": 250}), (10, {"dome_f": 258}), (30, {"dome_f": 247}), now=40)
    assert facts["at_target_for_min"] == 30


def test_smoke_told_twice_says_how_long_it_lasts(known):
    assert known((0, {"smoke": "white"}), (15, {"smoke": "white"}), now=15)["smoke_for_min"] == 15
    assert "smoke_for_min" not in known((0, {"smoke": "white"}), now=15)
    assert "smoke_for_min" not in known((0, {"smoke": "thin_blue"}), (15, {"smoke": "thin_blue"}), now=15)


def test_the_wait_after_a_move_runs_out(known):
    assert known((0, {"vents_moved_ago_min": 2}), now=1)["rest_of_hands_off_min"] == 2
    assert known((0, {"vents_moved_ago_min": 2}), now=10)["rest_of_hands_off_min"] == 0


def test_the_chart_gives_the_settings_of_the_trade(rulebook):
    """Common practice, no published source: barely open 225, half 325, wide open 450."""
    chart = rulebook.catalogue.vent_chart
    assert opening_for(chart, 225) <= 0.06
    assert opening_for(chart, 325) == 0.5
    assert opening_for(chart, 450) == 1
    assert opening_for(chart, 900) == 1
    assert opening_for(chart, 100) > 0


@given(st.floats(0, 1000), st.floats(0, 1000))
def test_a_hotter_target_never_needs_a_smaller_opening(rulebook, one, other):
    chart = rulebook.catalogue.vent_chart
    assert opening_for(chart, min(one, other)) <= opening_for(chart, max(one, other))


@pytest.mark.parametrize("over", [-24, -12, -6, 6, 12, 24])
@pytest.mark.parametrize("top", [0.05, 0.12, 0.2, 0.35])
def test_a_small_error_is_a_small_move_of_the_top_the_right_way(known, top, over):
    """Small moves: half an inch is too much. Common practice, no published source."""
    facts = known((0, {"dome_f": 250 + over, "target_f": 250, "top_vent": top, "bottom_vent": 0.25, "trend": "steady"}))
    assert 0.02 <= facts["aim_top"] <= 1 and abs(facts["aim_top"] - top) <= LARGEST_NUDGE + 0.001
    assert "aim_bottom" not in facts   # the bottom stays where it stands
    if facts["move_in_min"] == 0:
        assert (facts["aim_top"] - top) * facts["ahead_f"] < 0


WIDE_TOPS = pytest.mark.parametrize(("top", "bottom"), [(0.42, 0.25), (0.5, 0.25), (0.7, 0.25), (0.5, 0.125)])


def steady_at_325(known, top, bottom, over):
    return known((0, {"dome_f": 325 + over, "target_f": 325, "top_vent": top, "bottom_vent": bottom, "trend": "steady"}))


@WIDE_TOPS
def test_the_change_of_air_is_small_for_a_small_error_and_grows_with_it(known, top, bottom):
    way = Airway(0.25).way
    changes = []
    for over in (-24, -12, -7, 7, 12, 24):
        facts = steady_at_325(known, top, bottom, over)
        changes.append(way(facts["aim_top"], facts.get("aim_bottom", bottom)) - way(top, bottom))
        assert changes[-1] * over < 0 and abs(changes[-1]) <= 0.024 * abs(over)
        assert facts.get("aim_bottom", bottom) == bottom or facts["aim_top"] == 1   # both only when one has no more to give
    assert changes == sorted(changes, reverse=True)


@WIDE_TOPS
@pytest.mark.parametrize("over", [-12, -7])
def test_for_a_dozen_degrees_no_vent_is_thrown_wide_open(known, top, bottom, over):
    """Half as far open again at the most: small error, small move, common practice, no published source."""
    assert steady_at_325(known, top, bottom, over)["aim_top"] <= max(1.5 * top, top + LARGEST_NUDGE)


@given(over=st.integers(-74, 74), top=st.floats(0, 1), bottom=st.floats(0.03, 1), target=st.sampled_from([225, 275, 350, 600]))
@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_one_move_is_bounded_and_never_shuts_the_fire_out(known, over, top, bottom, target):
    facts = known((0, {"dome_f": target + over, "target_f": target, "top_vent": round(top, 3), "bottom_vent": round(bottom, 3)}))
    if "aim_top" in facts:
        assert 0.02 <= facts["aim_top"] <= 1 and 0.03 <= facts.get("aim_bottom", bottom) <= 1
        if abs(over) < 25 and abs(facts["ahead_f"]) < 25 and top < WIDE:
            assert abs(facts["aim_top"] - round(top, 3)) <= LARGEST_NUDGE + 0.001 or facts["aim_top"] == 0.02


@given(st.floats(-75, 75), st.integers(0, 9), st.floats(0, 60))
def test_hands_stay_off_after_a_move_the_longer_the_less_is_off(ahead, moves, ago):
    wait, off = move_in(ahead, moves, ago), abs(ahead)
    assert wait is None or wait >= 0
    if wait is not None:
        assert ago + wait >= QUIET_MIN - 0.5   # it is given in whole minutes
        further = move_in(off + 5, moves, ago)
        assert further is not None and further <= wait
    more = move_in(ahead, moves + 1, ago)
    assert more is None or more == wait


def test_a_dome_that_is_off_by_nothing_needs_no_move():
    assert move_in(0.0, 0, None) is None
    assert move_in(20.0, 0, None) == 0


def test_a_level_takes_two_looks_after_the_last_move_has_shown():
    readings = ((0, 300.0), (20, 260.0), (30, 255.0), (40, 260.0))
    assert level_of(readings, 40, moved_at=5) == 258.3
    assert level_of(readings, 40, moved_at=25) is None


def test_where_it_stands_on_the_whole_is_known_only_of_a_steady_dome(known):
    turns = [(0, {"dome_f": 258, "target_f": 250}), (15, {"dome_f": 260}), (25, {"dome_f": 258})]
    assert known(*turns, now=25)["level_off_f"] == pytest.approx(8.7)
    assert "level_off_f" not in known(*turns, (30, {"dome_f": 290}), now=30)


def test_water_boils_at_212_at_the_sea():
    assert boiling_point_f(0) == 212.0


@pytest.mark.parametrize("feet", [0, 1000, 3000, 5000, 8000, 10000])
def test_boiling_point_agrees_with_coolprop(feet):
    props = pytest.importorskip("CoolProp.CoolProp")
    kelvin = props.PropsSI("T", "P", pressure_pa(feet), "Q", 0, "Water")
    assert math.isclose(boiling_point_f(feet), (kelvin - 273.15) * 9 / 5 + 32, abs_tol=0.5)


def test_pressure_of_the_standard_atmosphere():
    """ICAO standard atmosphere: 89,875 Pa at 1,000 m, 79,495 Pa at 2,000 m (from memory)."""
    assert math.isclose(pressure_pa(1000 / 0.3048), 89_875, rel_tol=1e-3)
    assert math.isclose(pressure_pa(2000 / 0.3048), 79_495, rel_tol=1e-3)


def test_a_dome_that_comes_back_by_itself_is_given_the_longest_look():
    assert left_over((30.0, 20.0, 6.0), 35.0) == 6.0
    assert left_over((33.0, 31.0, 29.0), 35.0) == 31.0   # it hardly moves
    assert left_over((10.0, -4.0, -20.0), 35.0) == -4.0  # it runs through


def test_hot_walls_do_not_talk_the_last_air_out_of_a_fire(known):
    """Common practice, no published source: a soaked cooker sinks by its walls; a fire that is starved meanwhile goes out."""
    turns = ((0, {"dome_f": 310, "target_f": 250, "top_vent": 0.12, "bottom_vent": 0.25}), (8, {"dome_f": 295}), (16, {"dome_f": 278}))
    assert known(*turns, now=16.0)["aim_top"] >= 0.04
    assert (known(*turns, now=16.0)["read_ago_min"], known(*turns, now=40.0)["read_ago_min"]) == (0.0, 24.0)


def test_shutting_again_what_is_shut_does_not_start_the_half_hour_anew(known):
    """After half an hour a choked fire must have its air, however often it was told to stay shut."""
    shut = {"bottom_vent": 0, "top_vent": 0, "vents_moved_ago_min": 0}
    found = known((0, {"dome_f": 340, "target_f": 225, **shut}), (20, shut), (31, {"dome_f": 245}), now=31.0)
    assert found["shut_in_for_min"] == 31.0 and found["until_reopen_f"] <= 0.0


def test_whole_minutes_are_numbers_like_any_other(known):
    """A clock in whole minutes once made ages that no rule could compare."""
    found = known((0, {"dome_f": 400, "target_f": 250, "bottom_vent": 0, "top_vent": 0}), (30, {"dome_f": 380}), now=31)
    assert all(isinstance(found[name], float) for name in ("shut_in_for_min", "read_ago_min"))
