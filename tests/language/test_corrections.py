"""A newer word takes the place of an older one."""

from advisor.units import UnitStyle

COOK = {"dome_f": 350.0, "target_f": 225.0}


def test_the_denied_value_names_the_fact(listen):
    heard = listen("no i meant 250 not 225", facts=COOK)
    assert heard.facts == {"target_f": 250} and "correction" in heard.intents


def test_without_one_the_likeliest_slip_is_mended(listen):
    assert listen("no I meant 250", facts=COOK).facts == {"dome_f": 250}
    assert listen("sorry 360", facts=COOK).facts == {"dome_f": 360}


def test_the_later_of_two_in_one_message_stands(listen):
    assert listen("180, sorry, 160").facts == {"dome_f": 160}
    assert listen("want 250, I mean 275").facts == {"target_f": 275}


def test_a_scale_named_afterwards_turns_the_earlier_readings(listen):
    heard = listen("sorry, celsius", facts={"dome_f": 120.0, "target_f": 110.0})
    assert heard.facts == {"dome_f": 248, "target_f": 230} and heard.units.temperature == "C"


def test_a_scale_already_known_turns_nothing(listen):
    assert listen("sorry, celsius", facts={"dome_f": 248.0}, units=UnitStyle("C")).facts == {}


def test_a_vent_is_put_right(listen):
    assert listen("actually the top is shut", facts={"top_vent": 1.0}).facts == {"top_vent": 0}


def test_food_is_put_right(listen):
    assert listen("I said ribs, I meant brisket").facts["food"] == "brisket"


def test_the_end_of_a_blaze_is_not_the_end_of_the_fire(listen):
    heard = listen("fire's out now", facts={"grease_fire": True, "flames": True}).facts
    assert heard == {"grease_fire": False, "flames": False}
