"""Durations, clock times and what they count from."""

import pytest


@pytest.mark.parametrize(
    ("words", "fact", "minutes"),
    [
        ("lit it 20 min ago", "lit_ago_min", 20),
        ("lit it at 6, its 6:50 now", "lit_ago_min", 50),
        ("45 min since i lit it", "lit_ago_min", 45),
        ("been lit for half an hour", "lit_ago_min", 30),
        ("it's 9 pm, lit at 815", "lit_ago_min", 45),
        ("shut the bottom 10 min ago", "vents_moved_ago_min", 10),
        ("last touched the vents an hour ago", "vents_moved_ago_min", 60),
        ("threw 2 chunks of cherry on ten mins ago", "wood_added_ago_min", 10),
        ("fire died 3 hours ago", "fire_died_ago_min", 180),
        ("put the ribs on 2 hours ago", "food_on_for_min", 120),
        ("opened the lid 5 min ago", "lid_opened_ago_min", 5),
        ("been at 250 for an hour", "at_target_for_min", 60),
        ("i adjust every ten min or so", "vents_moved_every_min", 10),
        ("moved the bottom vent 6 times in the last hour", "vents_moved_every_min", 10),
        ("guests in 2 hours", "serve_in_min", 120),
        ("eating at 7, its 3 now", "serve_in_min", 240),
        ("dinner at 6:30 and it's 4 now", "serve_in_min", 150),
        ("i slammed both shut, that was half an hour ago", "vents_moved_ago_min", 30),
        ("the turkey sat out 4 hours", "out_of_fridge_min", 240),
        ("meat was between 40 and 140 for six hours", "danger_zone_for_min", 360),
        ("core held 150 for twenty minutes", "meat_held_for_min", 20),
    ],
)
def test_a_time_counts_from_its_event(listen, words, fact, minutes):
    assert listen(words).facts[fact] == minutes


def test_the_clock_comes_from_the_context_where_the_words_give_none(listen):
    assert listen("eating at 7", minute_of_day=16 * 60).facts["serve_in_min"] == 180
    assert listen("lit it at half past three", minute_of_day=16 * 60).facts["lit_ago_min"] == 30


def test_without_a_clock_a_time_of_day_tells_nothing(listen):
    assert "serve_in_min" not in listen("eating at 7").facts


def test_a_stall_of_the_meat_is_no_time_at_target(listen):
    heard = listen("brisket stuck at 160 for 3 hours").facts
    assert heard["meat_trend"] == "steady"
    assert "at_target_for_min" not in heard and "trend" not in heard


def test_a_time_to_come_is_not_a_time_since(listen):
    assert "lit_ago_min" not in listen("4 hours to go").facts
