"""One or two words in answer to the question that was asked."""

import pytest


@pytest.mark.parametrize(("asked", "words", "facts"), [
    ("food_on", "yes", {"food_on": True}), ("flames", "nope", {"flames": False}), ("windy", "not really", {"windy": False}), ("windy", "yeah its blowing a bit", {"windy": True}),
    ("bottom_vent", "half", {"bottom_vent": 0.5}), ("bottom_vent", "an inch", {"bottom_vent_in": 1}), ("bottom_vent", "closed", {"bottom_vent": 0}),
    ("top_vent", "barely", {"top_vent": 0.05}), ("top_vent", "wide open", {"top_vent": 1}), ("bottom_vent", "3cm", {"bottom_vent_in": 1.181}),
    ("lit_ago_min", "about an hour", {"lit_ago_min": 60}), ("lit_ago_min", "20", {"lit_ago_min": 20}), ("vents_moved_ago_min", "just now", {"vents_moved_ago_min": 0}),
    ("target_f", "250", {"target_f": 250}), ("target_f", "about 225", {"target_f": 225}), ("meat_f", "160", {"meat_f": 160}), ("over_f", "40 under", {"over_f": -40}),
    ("smoke", "white", {"smoke": "white"}), ("smell", "sharp", {"smell": "acrid"}), ("trend", "still climbing", {"trend": "rising"}),
    ("lit_spots", "just the middle bit was lit", {"lit_spots": "one"}), ("burn_pattern", "one side", {"burn_pattern": "one_side"}), ("ash", "a lot", {"ash": "heavy"}),
    ("fuel_level", "a quarter", {"fuel_level": 0.25}), ("fuel_level", "nearly none", {"fuel_level": 0.1}), ("wood_state", "dry", {"wood_state": "dry"}),
    ("indoors", "open air", {"indoors": False}), ("indoors", "under a roof", {"indoors": True}), ("lid_open", "shut", {"lid_open": False}),
    ("heat_soaked", "not yet", {"heat_soaked": False}), ("fire_out", "still some glow", {"fire_out": False}), ("deflector_in", "no, its out", {"deflector_in": False}),
    ("food_on", "yes and its at 310 now", {"food_on": True, "dome_f": 310}), ("choked", "yep both of them", {"choked": True}),
])
def test_a_short_answer_fills_the_asked_fact(listen, asked, words, facts):
    heard = listen(words, asked=asked).facts
    assert {name: heard.get(name) for name in facts} == facts


def test_the_clock_answers_how_long_ago(listen):
    assert listen("since about 3", asked="lit_ago_min", minute_of_day=16 * 60).facts["lit_ago_min"] == 60


@pytest.mark.parametrize("words", ["no idea", "dunno", "don't know", "not sure", "can't tell"])
def test_not_knowing_is_an_answer_too(listen, words):
    heard = listen(words, asked="fuel_level")
    assert heard.facts == {} and "declined" in heard.intents


def test_an_answer_to_another_question_leaves_the_asked_fact_alone(listen):
    assert listen("dome's at 310 and climbing", asked="food_on").facts == {"dome_f": 310, "trend": "rising"}


def test_a_named_reading_is_not_taken_for_the_asked_one(listen):
    assert listen("dome 310", asked="target_f").facts == {"dome_f": 310}
