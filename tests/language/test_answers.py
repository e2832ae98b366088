"""One or two words in answer to the question that was asked."""

import pytest


@pytest.mark.parametrize(
    ("asked", "words", "facts"),
    [
        ("food_on", "yes", {"food_on": True}),
        ("flames", "nope", {"flames": False}),
        ("windy", "not really", {"windy": False}),
        ("windy", "yeah its blowing a bit", {"windy": True}),
        ("bottom_vent", "half", {"bottom_vent": 0.5}),
        ("bottom_vent", "an inch", {"bottom_vent_in": 1}),
        ("bottom_vent", "closed", {"bottom_vent": 0}),
        ("top_vent", "barely", {"top_vent": 0.05}),
        ("top_vent", "wide open", {"top_vent": 1}),
        ("bottom_vent", "3cm", {"bottom_vent_in": 1.181}),
        ("lit_ago_min", "about an hour", {"lit_ago_min": 60}),
        ("lit_ago_min", "20", {"lit_ago_min": 20}),
        ("vents_moved_ago_min", "just now", {"vents_moved_ago_min": 0}),
        ("target_f", "250", {"target_f": 250}),
        ("target_f", "about 225", {"target_f": 225}),
        ("meat_f", "160", {"meat_f": 160}),
        ("over_f", "40 under", {"over_f": -40}),
        ("smoke", "white", {"smoke": "white"}),
        ("smell", "sharp", {"smell": "acrid"}),
        ("trend", "still climbing", {"trend": "rising"}),
        ("lit_spots", "just the middle bit was lit", {"lit_spots": "one"}),
        ("burn_pattern", "one side", {"burn_pattern": "one_side"}),
        ("ash", "a lot", {"ash": "heavy"}),
        ("fuel_level", "a quarter", {"fuel_level": 0.25}),
        ("fuel_level", "nearly none", {"fuel_level": 0.1}),
        ("wood_state", "dry", {"wood_state": "dry"}),
        ("indoors", "open air", {"indoors": False}),
        ("indoors", "under a roof", {"indoors": True}),
        ("lid_open", "shut", {"lid_open": False}),
        ("heat_soaked", "not yet", {"heat_soaked": False}),
        ("fire_out", "still some glow", {"fire_out": False}),
        ("deflector_in", "no, its out", {"deflector_in": False}),
        ("food_on", "yes and its at 310 now", {"food_on": True, "dome_f": 310}),
        ("choked", "yep both of them", {"choked": True}),
    ],
)
def test_a_short_answer_fills_the_asked_fact(listen, asked, words, facts):
    heard = listen(words, asked=asked).facts
    assert {name: heard.get(name) for name in facts} == facts


@pytest.mark.parametrize(
    ("asked", "words", "value"),
    [
        ("indoors", "yes", False),
        ("indoors", "no", True),
        ("indoors", "no its under the carport", True),
        ("gauge_suspect", "yes", False),
        ("gauge_suspect", "no", True),
        ("fire_out", "yes", False),
        ("fire_out", "yeah still glowing", False),
        ("co_symptoms", "yes", True),
        ("smoke_blows_down", "up", False),
        ("lid_open", "yes", True),
        ("heat_soaked", "no", False),
    ],
)
def test_yes_means_the_first_thing_the_question_offers(listen, asked, words, value):
    assert listen(words, asked=asked).facts[asked] is value


@pytest.mark.parametrize(
    ("asked", "words", "value"),
    [
        ("fuel_level", "plenty", 0.9),
        ("fuel_level", "not much", 0.1),
        ("trend", "same", "steady"),
        ("smoke", "clear", "none"),
        ("smell", "bitter", "acrid"),
        ("smell", "like petrol", "chemical"),
        ("lid_opens_often", "twice", True),
        ("gauge_suspect", "its fine", False),
        ("lid_opened_ago_min", "not for ages", 120),
    ],
)
def test_words_that_answer_one_question_alone(listen, asked, words, value):
    assert listen(words, asked=asked).facts[asked] == value
    assert asked not in listen(words).facts or asked in ("lid_opens_often",)


def test_no_to_how_long_ago_declines(listen):
    assert "declined" in listen("no wood", asked="wood_added_ago_min").intents


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
