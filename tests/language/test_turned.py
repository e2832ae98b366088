"""Words that turn a flag round, dictated marks, years and prices, questions that tell nothing."""

import pytest


@pytest.mark.parametrize(("words", "facts"), [
    ("wasn't windy this morning, is now", {"windy": True}),
    ("it was raining, not any more", {"raining": False}),
    ("it was raining earlier but not now", {"raining": False}),
    ("it wasnt raining, it is now", {"raining": True}),
    ("was leaking round the gasket, no longer", {"gasket_leaks": False}),
])
def test_a_flag_is_turned_round(listen, words, facts):
    assert listen(words).facts == facts


@pytest.mark.parametrize(("words", "facts"), [
    ("three sixty comma vents are both a third", {"dome_f": 360, "bottom_vent": 0.33, "top_vent": 0.33}),
    ("dome is at two fifty full stop target is three hundred", {"dome_f": 250, "target_f": 300}),
])
def test_dictated_marks_are_marks(listen, words, facts):
    assert listen(words).facts == facts


@pytest.mark.parametrize("words", ["paid 1800 quid for it in 2019", "bought it in 2019", "cost me 1400 dollars"])
def test_prices_and_years_are_no_clock_times(listen, words):
    assert listen(words, minute_of_day=16 * 60).facts == {}


def test_four_digits_are_a_time_of_day(listen):
    assert listen("dinner's at 1830 and its 1645", minute_of_day=16 * 60 + 45).facts["serve_in_min"] == 105


@pytest.mark.parametrize("words", [
    "why only one starter", "why does a leaky gasket make it run hot", "my lad wants to throw a bucket of water in",
    "heat index is 104 today", "whats 110 c in fahrenheit", "my mate says 165 kills everything",
    "my neighbours one sits on 225 all day", "did ribs at 300 once and they were fine",
])
def test_what_is_asked_or_told_of_others_is_no_fact(listen, words):
    assert not {"dome_f", "lit_spots", "gasket_leaks", "water_thrown"} & set(listen(words).facts)


@pytest.mark.parametrize(("words", "facts"), [
    ("been sitting at 200, wont go to 250", {"dome_f": 200, "target_f": 250}),
    ("it wont come down from 330", {"dome_f": 330}),
    ("opened top 5 mm and bottom 2 cm", {"top_vent_in": 0.197, "bottom_vent_in": 0.787}),
    ("half the fire went out, only burning on the left", {"burn_pattern": "one_side"}),
    ("headaches gone now", {"co_symptoms": False}),
    ("ceramic grill crept up to 315", {"dome_f": 315, "grate_f": None}),
    ("bottom vents full of ash", {"ash": "heavy", "bottom_vent": None}),
    ("pulled the lid up to spritz, was 240 now its 205", {"lid_was_open": True, "dome_f": 205}),
])
def test_the_words_go_to_the_right_fact(listen, words, facts):
    heard = listen(words).facts
    assert {name: heard.get(name) for name in facts} == facts
    assert "fire_out" not in heard


def test_a_bare_figure_goes_to_what_stood_near_it(listen):
    at_250 = {"dome_f": 250.0, "meat_f": 160.0}
    assert listen("it's 168 now", facts=at_250).facts == {"meat_f": 168}
    assert listen("273", asked="target_f", facts={"dome_f": 265.0}).facts == {"dome_f": 273}
    assert listen("275", asked="target_f", facts={"dome_f": 265.0}).facts == {"target_f": 275}


@pytest.mark.parametrize("words", ["theres an ember that fell out onto the deck", "a coal rolled out on the grass"])
def test_coals_that_fell_out_are_no_falling_dome(listen, words):
    heard = listen(words).facts
    assert heard["coals_loose"] is True and not {"trend", "fire_out"} & set(heard)
