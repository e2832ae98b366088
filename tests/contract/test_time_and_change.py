"""A situation over time: the newest word wins, ages grow, flags end, steps done leave their effect."""

import pytest
from outside import known

# ---- the newest word wins, and what is derived from it is derived again --------------------------------------------


def test_a_newer_distance_replaces_an_older_reading(program):
    reply = program.talk("dome 350, want 250", "im 40 over now")
    assert (reply["situation"]["over_f"], reply["situation"]["dome_f"]) == (40, 290)


def test_a_newer_reading_replaces_an_older_distance(program):
    reply = program.talk("100 over, want 250", "dome 310")
    assert (reply["situation"]["over_f"], reply["situation"]["dome_f"]) == (60, 310)


def test_without_a_target_only_the_newer_of_the_two_is_known(program):
    assert known(program.talk("dome 350", "80 over")).keys() == {"over_f"}
    assert "over_f" not in program.talk("dome 340", start=5)["situation"]


def test_distance_alone_may_be_all_that_was_said(program):
    assert program.say("im 100 over", 0)["situation"] == {"over_f": 100}


def test_under_the_target_is_negative(program):
    assert program.say("im 40 under", 0)["situation"]["over_f"] == -40


def test_another_target_moves_no_fire(program):
    reply = program.talk("100 over, want 250", "change of plan, target is 300 now")
    assert (reply["situation"]["dome_f"], reply["situation"]["over_f"]) == (350, 50)


def test_a_corrected_target_keeps_the_distance_that_was_told(program):
    reply = program.talk("100 over, want 250", "no I meant 240 not 250")
    assert (reply["situation"]["target_f"], reply["situation"]["over_f"]) == (240, 100)


def test_a_corrected_reading_is_no_fall_of_the_dome(program):
    reply = program.talk("dome 350", "target is 275", "no I meant 300 not 350")
    assert (reply["situation"]["dome_f"], reply["situation"]["over_f"]) == (300, 25)
    assert "trend" not in reply["situation"] and "rate_f_per_min" not in reply["situation"]


def test_a_corrected_target_after_a_reading(program):
    reply = program.talk("dome reads 310", "i want 350", "no I meant 250 not 350")
    assert reply["heard"]["target_f"] == 250
    assert (reply["situation"]["dome_f"], reply["situation"]["over_f"]) == (310, 60)


def test_the_pace_follows_the_newest_readings(program):
    program.send(reading={"target_f": 250, "dome_f": 300}, at_min=0)
    program.send(reading={"dome_f": 320}, at_min=10)
    assert (program.last["situation"]["trend"], program.last["situation"]["rate_f_per_min"]) == ("rising", 2)
    program.send(reading={"dome_f": 300}, at_min=20)
    assert (program.last["situation"]["trend"], program.last["situation"]["rate_f_per_min"]) == ("falling", -2)


def test_distances_told_make_a_pace_as_well_as_readings(program):
    reply = program.talk("100 over, want 250", "60 over", every_min=10)
    assert (reply["situation"]["trend"], reply["situation"]["rate_f_per_min"]) == ("falling", -4)


def test_a_distance_told_before_its_target_counts_for_the_pace(program):
    program.say("im 100 over", 0)
    program.say("want 250", 2)
    assert program.say("now 310", 10)["situation"]["rate_f_per_min"] == -4


def test_distances_alone_make_a_pace(program):
    reply = program.talk("100 over", "60 over", every_min=10)
    assert (reply["situation"]["trend"], reply["situation"]["rate_f_per_min"]) == ("falling", -4)


def test_a_distance_and_a_reading_make_no_pace_while_the_target_is_unknown(program):
    reply = program.talk("100 over", "dome 310", every_min=10)
    assert "trend" not in reply["situation"]


def test_of_two_readings_in_one_minute_the_newer_counts(program):
    program.send(reading={"dome_f": 250}, at_min=0)
    program.send(reading={"dome_f": 275}, at_min=0)
    assert program.send(reading={"dome_f": 275}, at_min=10)["situation"]["trend"] == "steady"


def test_what_was_said_of_the_trend_outweighs_what_readings_give(program):
    program.send(reading={"dome_f": 300}, at_min=0)
    program.send(reading={"dome_f": 320}, at_min=10)
    assert program.say("its falling now", 11)["situation"]["trend"] == "falling"


def test_time_near_target_ends_far_from_it(program):
    program.say("want 250", 0)
    program.send(reading={"at_target_for_min": 60, "dome_f": 250}, at_min=0)
    assert program.send(reading={"dome_f": 255}, at_min=30)["situation"]["at_target_for_min"] == 90
    assert "at_target_for_min" not in program.send(reading={"dome_f": 350}, at_min=40)["situation"]


# ---- facts that grow with the clock --------------------------------------------------------------------------------

GROWING = ["lit_ago_min", "vents_moved_ago_min", "at_target_for_min", "wood_added_ago_min", "fire_died_ago_min",
           "danger_zone_for_min", "food_on_for_min", "meat_held_for_min", "cooling_for_min"]


@pytest.mark.parametrize("fact", GROWING)
def test_ages_grow_with_the_clock(program, fact):
    program.send(reading={fact: 10}, at_min=100)
    assert program.say("thanks", 117.5)["situation"][fact] == 27.5


def test_every_fact_that_is_named_as_an_age_grows(rulebook):
    named = [name for name in rulebook.vocabulary.told if name.endswith(("_ago_min", "_for_min"))]
    assert len(named) >= len(GROWING)
    assert [name for name in named if rulebook.vocabulary[name].clock != "grows"] == []


def test_the_time_to_serving_draws_near(program):
    program.send(reading={"serve_in_min": 60}, at_min=0)
    assert program.say("thanks", 45)["situation"]["serve_in_min"] == 15


def test_other_figures_stand_until_a_newer_word(program):
    program.send(reading={"dome_f": 300, "fuel_level": 0.5, "vents_moved_every_min": 3}, at_min=0)
    reply = program.say("thanks", 45)
    assert [reply["situation"][name] for name in ("dome_f", "fuel_level", "vents_moved_every_min")] == [300, 0.5, 3]


def test_ages_grow_by_the_real_clock_when_none_is_sent(program):
    program.send(reading={"lit_ago_min": 10})
    program.clock.set(7)
    assert program.say("thanks")["situation"]["lit_ago_min"] == 17


# ---- true, false, and never known ----------------------------------------------------------------------------------

ENDED_BY_WORDS = [
    ("flames are coming out of the top", "flames", "the flames are gone"),
    ("the grease is on fire", "grease_fire", "grease fire is out"),
    ("the fire is out", "fire_out", "its lit again"),
    ("the lid is open", "lid_open", "i closed the lid"),
    ("its really windy", "windy", "the wind has died down"),
    ("its raining", "raining", "it stopped raining"),
    ("cooking in the garage", "indoors", "rolled it outside"),
    ("i have a headache", "co_symptoms", "the headache is gone"),
    ("both vents are shut, dome 400", "choked", "opened the top vent a quarter"),
    ("food is on", "food_on", "took the food off"),
]


@pytest.mark.parametrize(("begins", "fact", "ends"), ENDED_BY_WORDS, ids=[case[1] for case in ENDED_BY_WORDS])
def test_a_flag_is_absent_then_true_then_false(program, begins, fact, ends):
    assert fact not in program.say("hello", 0)["situation"]
    assert program.say(begins, 1)["situation"][fact] is True
    assert program.say(ends, 5)["situation"][fact] is False


ENDED_BY_STEPS = [
    ({"lid_open": True, "dome_f": 400, "target_f": 250}, "close_lid", "lid_open"),
    ({"fire_out": True, "food_on": False, "target_f": 250}, "light", "fire_out"),
    ({"grease_fire": True, "lid_open": True}, "close_lid", "lid_open"),
    ({"wood_state": "treated", "smoke": "yellow", "food_on": True}, "take_food_off", "food_on"),
]


@pytest.mark.parametrize(("told", "act", "fact"), ENDED_BY_STEPS)
def test_a_step_reported_done_ends_a_flag(program, told, act, fact):
    reply = program.send(reading=told, at_min=0)
    step = next(step["n"] for step in reply["steps"] if step["act"] == act)
    assert program.send(done=[step], at_min=2)["situation"][fact] is False


def test_opening_a_vent_by_a_step_ends_the_choke(program):
    program.send(reading={"bottom_vent": 0, "top_vent": 0, "dome_f": 400, "target_f": 250}, at_min=0)
    reply = program.send(reading={"dome_f": 250}, at_min=30)
    assert reply["situation"]["choked"] is True
    opening = [step["n"] for step in reply["steps"] if step["act"] == "set_vent"]
    assert program.send(done=opening, at_min=31)["situation"]["choked"] is False


def test_choked_needs_only_both_vents_shut_on_a_lit_fire(program):
    assert program.say("its lit, both vents shut", 0)["situation"]["choked"] is True


def test_one_vent_shut_chokes_nothing(program):
    assert "choked" not in program.say("dome 400, bottom vent shut", 0)["situation"]


def test_a_dead_fire_is_not_choked(program):
    assert program.say("fire is out, both vents shut", 0)["situation"].get("choked") is not True


@pytest.mark.parametrize("place", ["in the garage", "in the garage with the door up", "in a tent", "in the kitchen",
                                   "in the van", "on a closed balcony"])
def test_indoors_is_any_roofed_or_enclosed_place(program, place):
    assert program.say(f"the cooker is lit {place}", 0)["situation"]["indoors"] is True


# ---- steps done ----------------------------------------------------------------------------------------------------


def test_a_step_done_writes_its_effect_as_derived(program):
    program.say("im 100 over", 0)
    reply = program.send(done=[1, 2], at_min=1)
    assert (reply["situation"]["bottom_vent"], reply["situation"]["top_vent"]) == (0, 0)
    assert reply["situation"]["vents_moved_ago_min"] == 0
    origins = {used["fact"]: used["origin"] for firing in reply["why"] for used in firing["used"]}
    assert (origins["bottom_vent"], origins["top_vent"]) == ("derived", "derived")


def test_of_two_vents_the_second_is_still_advised_once_the_first_is_set(program):
    program.say("dome 400, want 250", 0)
    reply = program.send(done=[1], at_min=1)
    assert reply["situation"]["bottom_vent"] == 0 and "top_vent" not in reply["situation"]
    assert (reply["steps"][0]["act"], reply["steps"][0]["vent"]) == ("set_vent", "top")
    reply = program.send(done=[1], at_min=1.5)
    assert reply["situation"]["top_vent"] == 0
    assert reply["steps"][0]["act"] == "wait"


def test_done_in_words_is_the_step_in_hand(program):
    program.say("im 100 over", 0)
    reply = program.say("done", 1)
    assert (reply["situation"]["bottom_vent"], reply["situation"]["top_vent"]) == (0, 0)
    assert reply["heard"] == {}


def test_food_thrown_away_as_advised_is_out_of_question(program):
    reply = program.say("there is painted wood in it, yellow smoke, and the ribs are on", 0)
    step = next(step["n"] for step in reply["steps"] if step["act"] == "discard_food")
    reply = program.send(done=[step], at_min=3)
    assert reply["food"] is None
    assert reply["situation"]["food_on"] is False
    assert not {"food", "meat_kind", "meat_f"} & set(reply["situation"])
