"""What a cook's readings and moves show of its air: where a stretch ends, what is left out, and how the stretches are joined."""

import pytest

from advisor.airway import Airway
from advisor.changes import Move
from advisor.derivation import derive
from advisor.facts import Fact
from advisor.profile import CookerProfile
from advisor.record import GUSTS, KEPT_OF_PACE, MOST_READINGS, Record, held, recorded
from advisor.response import TURNED_FADES_MIN
from advisor.situation import Situation

AIRWAY, TARGET = Airway(), 250.0
INCH = AIRWAY.inch


def facts(**told):
    return {name: Fact(name, value, "said", 0.0) for name, value in told.items()}


def record(readings, moves=(), now=60.0, target=TARGET, hope=0.0, from_target=False, told=None, **known):
    situation = Situation(facts=told or {}, readings=tuple(readings), moves=tuple(moves), from_target=from_target)
    return recorded(situation, facts(**known), target, AIRWAY, hope, now)


def put(minute, top=None, bottom=None, was=(None, None)):
    return Move(minute, bottom=bottom, top=top, top_was=was[0], bottom_was=was[1])


STEADY = [(float(minute), 290.0) for minute in range(0, 61, 10)]
CHOKE = put(20, 0.0, 0.0, was=(0.3, INCH))


# -- breaks -----------------------------------------------------------------------------------------------------------

def test_a_cook_that_is_only_steered_is_one_stretch():
    found = record(STEADY, [put(15, top=0.2, was=(0.3, INCH)), put(35, top=0.15, was=(0.2, INCH))], top_vent=0.15, bottom_vent=INCH)
    assert found.before == () and found.now.readings == tuple((minute, 40.0) for minute, _ in STEADY)
    assert [minute for minute, _ in found.now.moves] == [15, 35]
    assert sum(change for _, change in found.now.moves) == pytest.approx(AIRWAY.way(0.15, INCH) - AIRWAY.way(0.3, INCH))
    assert found.now.way == pytest.approx(AIRWAY.way(0.15, INCH))


def test_shut_vents_end_a_stretch_and_none_begins():
    found = record(STEADY, [CHOKE], top_vent=0.0, bottom_vent=0.0)
    (before,) = found.before
    assert found.now is None
    assert before.until == 20 and before.way == pytest.approx(AIRWAY.way(0.3, INCH))
    assert [minute for minute, _ in before.readings] == [0, 10, 20]


def test_one_shut_vent_alone_starves_the_fire_too():
    under = [(minute, dome - 80.0) for minute, dome in STEADY]
    assert record(under, [put(20, top=0.0, was=(0.3, None))], top_vent=0.0, bottom_vent=INCH).now is None
    assert record(STEADY, [put(20, bottom=0.0, was=(None, INCH))], top_vent=0.3, bottom_vent=0.0).now is None


def test_shut_from_the_first_word_on_tells_nothing():
    assert record(STEADY, top_vent=0.0, bottom_vent=0.0) == Record()


def test_air_given_back_begins_anew_and_keeps_little_of_the_pace():
    readings = [(0.0, 350.0), (10.0, 340.0), (20.0, 330.0), (30.0, 300.0), (40.0, 270.0), (50.0, 255.0)]
    found = record(readings, [CHOKE, put(40, 0.1, INCH, was=(0.0, 0.0))], top_vent=0.1, bottom_vent=INCH)
    assert len(found.before) == 1 and found.before[0].until == 20
    assert (found.now.since, found.now.moves) == (40, ())
    assert [minute for minute, _ in found.now.readings] == [40, 50]
    assert found.now.start.fades == TURNED_FADES_MIN
    assert found.now.start.pace == pytest.approx(KEPT_OF_PACE * -3.0, abs=0.1)


@pytest.mark.parametrize("cause", ["fuel_added_ago_min", "stirred_ago_min", "ash_cleared_ago_min"])
def test_another_cause_than_the_vents_ends_a_stretch(cause):
    found = record(STEADY, top_vent=0.2, bottom_vent=INCH, **{cause: 25.0})
    (before,) = found.before
    assert (before.until, found.now.since) == (35.0, 35.0)
    assert [minute for minute, _ in found.now.readings] == [40, 50, 60]
    assert found.now.way == before.way


def test_vents_that_were_wide_to_bring_it_up_and_are_closed_short_of_the_target_begin_anew():
    readings = [(0.0, 180.0), (10.0, 200.0), (20.0, 222.0), (30.0, 240.0)]
    closed = [put(20, 0.12, INCH, was=(1.0, 1.0))]
    assert record(readings, closed, top_vent=0.12, bottom_vent=INCH).now.since == 20
    over = [(minute, dome + 80) for minute, dome in readings]
    assert record(over, closed, top_vent=0.12, bottom_vent=INCH).now.moves != ()


def test_both_vents_of_one_move_count_once():
    parts = [put(15, top=0.2, was=(0.4, None)), put(16, bottom=0.2, was=(None, INCH))]
    (move,) = record(STEADY, parts, top_vent=0.2, bottom_vent=0.2).now.moves
    assert move == (15, pytest.approx(AIRWAY.way(0.2, 0.2) - AIRWAY.way(0.4, INCH)))


# -- what is left out, and what is not known --------------------------------------------------------------------------

def test_the_dip_after_the_lid_was_up_is_left_out():
    readings = [(0.0, 250.0), (12.0, 190.0), (17.0, 215.0), (22.0, 246.0)]
    found = record(readings, [Move(10.0, lid=True)], top_vent=0.15, bottom_vent=INCH)
    assert found.now.readings == ((0.0, 0.0), (22.0, -4.0)) and found.before == ()


def test_a_vent_from_nobody_knows_where_counts_as_no_move():
    found = record(STEADY, [put(20, top=0.2)], top_vent=0.2, bottom_vent=INCH)
    assert found.now.moves == ((20, 0.0),) and found.now.way == pytest.approx(AIRWAY.way(0.2, INCH))


def test_a_bottom_nobody_told_of_is_taken_to_stand_at_an_inch():
    assert record(STEADY, top_vent=0.2) == record(STEADY, top_vent=0.2, bottom_vent=INCH)
    assert record(STEADY, bottom_vent=INCH) == Record()


def test_distances_alone_are_told_as_they_are():
    found = record([(0.0, 40.0), (10.0, 30.0)], from_target=True, top_vent=0.2)
    assert found.now.readings == ((0.0, 40.0), (10.0, 30.0))
    assert record([], top_vent=0.2, over_f=35.0).now.readings == ((60.0, 35.0),)


def test_without_any_reading_nothing_is_told():
    found = record([], top_vent=0.2)
    assert found.now.told(60.0, 1.0) is None
    assert held(found, -1.5, 0.5, 60.0) == (pytest.approx(-1.5), pytest.approx(0.5))


def derived(rulebook, *turns):
    """What follows from turns of (minute, facts), at the minute of the last one: the situation, and the facts known."""
    situation = Situation()
    for minute, told in turns:
        checked = {name: rulebook.vocabulary.check(name, value) for name, value in told.items()}
        situation = situation.tell(checked, "said", rulebook.vocabulary, minute)
    chart = rulebook.catalogue.vent_chart
    return situation, derive(situation, rulebook.vocabulary, chart, CookerProfile(), turns[-1][0])


@pytest.mark.parametrize(("vent", "unit", "was", "is_now"), [("bottom_vent", "bottom_vent_in", 2.0, 1.0), ("top_vent", "top_vent_in", 1.5, 0.75)])
def test_a_move_told_in_inches_is_the_same_move(rulebook, vent, unit, was, is_now):
    travel = {"bottom_vent": CookerProfile().bottom_travel_in, "top_vent": CookerProfile().top_travel_in}[vent]
    other = {"bottom_vent": {"top_vent": 0.25}, "top_vent": {"bottom_vent": 0.25}}[vent]
    told = []
    for name, scale in ((vent, travel), (unit, 1.0)):
        turns = ((0, {"dome_f": 290, "target_f": 250, name: was / scale, **other}), (10, {name: is_now / scale}), (20, {"dome_f": 280}))
        _, known = derived(rulebook, *turns)
        told.append({fact: known[fact].value for fact in ("ahead_f", "aim_top", "moves_lately")})
    assert told[0] == pytest.approx(told[1], abs=0.01)


def test_another_target_makes_all_readings_so_far_off_it(rulebook):
    turns = [(0, {"dome_f": 250, "target_f": 250, "top_vent": 0.15}), (20, {"dome_f": 250}), (21, {"target_f": 275})]
    situation, known = derived(rulebook, *turns)
    found = recorded(situation, known, 275.0, AIRWAY, 0.0, 21.0)
    assert found.now.readings == ((0, -25.0), (20, -25.0))
    assert known["ahead_f"].value == pytest.approx(-25.0, abs=4.0)


def test_gusts_make_readings_worth_less():
    assert record(STEADY, top_vent=0.2, windy=True).noise == GUSTS
    assert record(STEADY, top_vent=0.2, windy=False).noise == record(STEADY, top_vent=0.2).noise == 1.0


def test_of_a_long_stretch_the_newest_readings_count():
    readings = [(float(minute), 250.0) for minute in range(120)]
    found = record(readings, now=119.0, top_vent=0.15).now.readings
    assert len(found) == MOST_READINGS and found[-1][0] == 119


@pytest.mark.parametrize(("trend", "sign"), [("rising", 1), ("falling", -1), ("steady", 0)])
def test_the_word_that_came_with_the_first_reading_says_its_pace(trend, sign):
    start = record([(0.0, 240.0)], now=0.0, told=facts(trend=trend), top_vent=0.15).now.start
    assert (start.pace > 0) - (start.pace < 0) == sign
    figure = record([(0.0, 240.0)], now=0.0, told=facts(trend=trend, rate_f_per_min=2.5), top_vent=0.15).now.start
    assert figure.pace == 2.5


# -- joined -----------------------------------------------------------------------------------------------------------

def test_a_hot_steady_dome_shows_that_less_air_holds_the_target():
    prior = AIRWAY.way(0.2, INCH)
    level, sd = held(record(STEADY, top_vent=0.2), prior, 0.5, 60.0)
    assert level < prior and sd < 0.5
    cool = [(minute, 210.0) for minute, _ in STEADY]
    assert held(record(cool, top_vent=0.2), prior, 0.5, 60.0)[0] > prior


def test_a_stretch_of_long_ago_counts_for_less():
    prior = AIRWAY.way(0.1, INCH)
    soon, late = (held(record(STEADY[:3], [CHOKE], now=now, top_vent=0.0, bottom_vent=0.0), prior, 0.5, now) for now in (25.0, 240.0))
    assert prior < late[0] < soon[0] < AIRWAY.way(0.3, INCH) and soon[1] < late[1] < 0.5


def test_a_sure_chart_gives_way_less():
    prior = AIRWAY.way(0.2, INCH)
    sure, unsure = (held(record(STEADY, top_vent=0.2), prior, sd, 60.0)[0] for sd in (0.1, 0.5))
    assert unsure < sure < prior


def test_a_top_shut_over_an_open_bottom_is_steered_by_what_the_dome_does(rulebook):
    """Wind and leaks can hold a dome up over a shut top; then the bottom has to close, and "top shut, bottom an inch" again is no help."""
    _, known = derived(rulebook, (0, {"dome_f": 330, "target_f": 275, "top_vent": 0.0, "bottom_vent": 0.25, "trend": "steady"}))
    assert known["aim_bottom"].value < 0.2
