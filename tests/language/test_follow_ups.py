"""Short news of what was told before, and a figure that answers nothing though something was asked."""

import pytest


@pytest.mark.parametrize(
    ("words", "known", "facts"),
    [
        ("gone now", {"smoke": "white"}, {"smoke": "none"}),
        ("it has thinned", {"smoke": "grey"}, {"smoke": "thin_blue"}),
        ("closed it", {"lid_open": True}, {"lid_open": False}),
        ("still coming out the bottom", {"smoke_blows_down": True}, {"smoke_blows_down": True}),
    ],
)
def test_short_news_speaks_of_what_stands(listen, words, known, facts):
    assert listen(words, facts=known).facts == facts


@pytest.mark.parametrize("words", ["gone now", "it has thinned", "closed it"])
def test_the_same_words_say_nothing_when_nothing_stands(listen, words):
    assert listen(words).facts == {}


@pytest.mark.parametrize("asked", ["lit_ago_min", "vents_moved_ago_min", "food_on_for_min", "serve_in_min"])
@pytest.mark.parametrize("words", ["now 275", "still 340", "dome 250", "170"])
def test_a_reading_is_no_time(listen, asked, words):
    heard = listen(words, asked=asked).facts
    assert asked not in heard and "dome_f" in heard


@pytest.mark.parametrize(
    "asked", ["food_on", "flames", "gauge_suspect", "smoke", "bottom_vent", "fuel_level"]
)
@pytest.mark.parametrize("words", ["no idea", "dunno", "never checked"])
def test_not_knowing_is_declined_and_never_false(listen, asked, words):
    heard = listen(words, asked=asked)
    assert heard.facts == {} and "declined" in heard.intents


@pytest.mark.parametrize(
    ("words", "asked"),
    [
        ("no wind", "food_on"),
        ("no smoke", "flames"),
        ("bottom's half", "top_vent"),
        ("lid shut", "bottom_vent"),
    ],
)
def test_what_is_said_of_something_else_is_no_answer(listen, words, asked):
    heard = listen(words, asked=asked).facts
    assert heard and asked not in heard


@pytest.mark.parametrize(
    ("typed", "facts"),
    [
        ("dropng 5 degrees a min", {"trend": "falling", "rate_f_per_min": -5}),
        ("gaskit leeking", {"gasket_leaks": True}),
        ("lidd is open", {"lid_open": True}),
        ("its at tow fifty", {"dome_f": 250}),
    ],
)
def test_misspelt_and_misheard_words_are_mended(listen, typed, facts):
    assert listen(typed).facts == facts
