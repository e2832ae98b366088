"""What puzzled newcomers say over several turns: once misheard, each with what stood before."""

import pytest

GOING = {"smoke": "white", "wood_added_ago_min": 5.0}
SHUT = {"top_vent": 0.0}


@pytest.mark.parametrize(
    ("words", "context", "facts"),
    [
        ("about a third of the coals", {"asked": "wood_share"}, {"wood_share": 0.33}),
        ("the wood is about a third of the coals", {}, {"wood_share": 0.33}),
        ("added 2 chunks of oak", {}, {"wood_added_ago_min": 0}),
        ("it wont drop with both shut", {}, {"bottom_vent": 0, "top_vent": 0}),
        ("not coming down with the bottom closed", {}, {"bottom_vent": 0}),
        ("its off, resting", {}, {"food_on": False, "resting": True}),
        ("took some out, grey now", {"facts": GOING}, {"smoke": "grey", "wood_taken_out": True}),
        ("262 instead of 250", {}, {"dome_f": 262, "target_f": 250}),
        ("its 262 rather than 250", {}, {"dome_f": 262, "target_f": 250}),
        ("Reads 10 low in boiling water", {}, {"gauge_suspect": True}),
        ("chicken thighs on at 350, need them for 6pm", {"minute_of_day": 720},
         {"food_on": True, "serve_in_min": 360}),
    ],
)
def test_it_is_heard(listen, words, context, facts):
    heard = listen(words, **context).facts
    assert {name: heard.get(name) for name in facts} == facts


@pytest.mark.parametrize(
    ("words", "context", "unheard"),
    [
        ("still 400 after 10 min", {}, {"lit_ago_min"}),
        ("its off, resting", {}, {"gauge_suspect"}),
        ("should i shut the vents", {"asked": "top_vent"}, {"top_vent", "bottom_vent"}),
        ("would half open be better", {"asked": "top_vent"}, {"top_vent", "bottom_vent"}),
        ("Reads 10 low in boiling water", {}, {"over_f"}),
        ("top vent is shut. well no its open", {}, {"top_vent"}),
        ("how about half of the coals", {}, {"wood_share"}),
    ],
)
def test_it_is_not_heard(listen, words, context, unheard):
    assert not unheard & listen(words, **context).facts.keys()


def test_an_old_reading_is_taken_for_one(listen):
    heard = listen("last time I looked was 11, it was 245")
    assert not heard.facts and heard.intents == ("old_news",)
