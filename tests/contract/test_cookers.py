"""Several cookers: names matched loosely, the more urgent one first, dangers of all of them in every reply."""

import pytest
from outside import dangers, known


@pytest.mark.parametrize("name", ["number one", "1", "the first", "first one", "#1", "cooker 1", "Number One", "one"])
def test_names_are_matched_loosely(program, name):
    program.say("number one is at 350, want 250", 0)
    program.say("number two is at 240, want 250", 1)
    reply = program.send(cooker=name, at_min=2)
    assert reply["situation"]["dome_f"] == 350


@pytest.mark.parametrize("words", ["number two now 300", "the second is at 300", "cooker 2 reads 300", "#2 is at 300"])
def test_words_name_them_loosely_too(program, words):
    program.send(cooker="number one", at_min=0)
    program.send(reading={"dome_f": 350}, at_min=0)
    program.send(cooker="number two", at_min=1)
    program.send(cooker="1", at_min=2)
    reply = program.say(words, 3)
    assert reply["situation"]["dome_f"] == 300
    assert program.send(cooker="one", at_min=4)["situation"]["dome_f"] == 350


def test_the_one_talked_of_before_there_were_several_is_the_first(program):
    program.say("dome 350, want 250", 0)
    program.say("number two is at 300, want 275", 1)
    reply = program.say("the first is at 330 now", 2)
    assert (reply["situation"]["target_f"], reply["situation"]["over_f"]) == (250, 80)
    assert program.say("number two is at 290", 3)["situation"]["over_f"] == 15


def test_a_danger_on_the_unnamed_cooker_is_told_as_such(program):
    program.say("flames out of the top", 0)
    assert "The other cooker:" in program.say("number two is at 300, want 275", 1)["text"]


def test_a_new_cooker_is_made_and_starts_empty(program):
    program.say("dome 350, want 250", 0)
    reply = program.send(cooker="the old one by the gate", at_min=1)
    assert known(reply) == {} and reply["steps"] == []


def test_switching_is_answered_with_where_that_cooker_stands(program):
    program.send(cooker="left", at_min=0)
    before = program.say("dome 350, want 250", 0)
    program.send(cooker="right", at_min=1)
    after = program.send(cooker="left", at_min=1)
    assert known(after) == known(before) and after["steps"] == before["steps"]
    assert after["heard"] == {}


def test_ages_of_a_cooker_grow_while_another_is_in_hand(program):
    program.send(cooker="left", at_min=0)
    program.say("lit it 10 minutes ago", 0)
    program.send(cooker="right", at_min=5)
    assert program.send(cooker="left", at_min=20)["situation"]["lit_ago_min"] == 30


def test_the_name_is_known_when_several_are_going(program):
    assert "cooker" not in program.say("dome 350, want 250", 0)["situation"]
    reply = program.say("number two is at 300", 1)
    assert (reply["heard"]["cooker"], reply["situation"]["cooker"]) == ("2", "2")


def test_the_reply_is_for_the_more_urgent_of_two(program):
    reply = program.say("number one is holding 250 nicely, number two is 120 over and climbing", 0)
    assert (reply["situation"]["cooker"], reply["heard"]["over_f"]) == ("2", 120)
    assert [other["cooker"] for other in reply["also_heard"]] == ["1"]
    assert reply["also_heard"][0]["heard"]["dome_f"] == 250


@pytest.mark.parametrize("words", ["number one is 100 over, number two has a grease fire",
                                   "number two has a grease fire, number one is 100 over"])
def test_danger_is_more_urgent_than_any_distance_in_either_order(program, words):
    reply = program.say(words, 0)
    assert reply["heard"] == {"grease_fire": True, "cooker": "2"}
    assert reply["also_heard"] == [{"cooker": "1", "heard": {"over_f": 100}}]


def test_the_other_keeps_what_was_heard_of_it(program):
    program.say("number one is 100 over, number two has a grease fire", 0)
    assert program.send(cooker="1", at_min=1)["situation"]["over_f"] == 100


@pytest.mark.parametrize("line", [{"say": "thanks"}, {"say": "why"}, {"say": "dome 252"}, {"say": "who won the game"},
                                  {"reading": {"dome_f": 255}}, {"cooker": "three"}, {"say": "what if it hits 400"}])
def test_a_danger_on_another_cooker_is_not_lost(program, line):
    program.say("number two has a grease fire", 0)
    burning = dangers(program.last)
    reply = program.send(cooker="1", at_min=1)
    assert burning <= dangers(reply)
    assert "Cooker 2:" in reply["text"]
    assert burning <= dangers(program.send(**line, at_min=2))


def test_the_danger_heard_of_the_less_urgent_of_two_is_not_lost(program):
    program.say("number one has flames coming out of the top, number two has a grease fire", 0)
    here = program.last["situation"]["cooker"]
    assert any(caution["says"].startswith(f"Cooker {'1' if here == '2' else '2'}:") for caution in program.last["cautions"])


def test_a_danger_that_is_over_elsewhere_is_gone_everywhere(program):
    program.say("number two has flames coming out of the top", 0)
    program.say("number two: the flames are gone", 20)
    assert dangers(program.send(cooker="1", at_min=21)) == set()


def test_crack_first_of_another_cooker_does_not_bother_this_one(program):
    program.say("number two is at 400, want 250", 0)
    assert dangers(program.last)
    assert dangers(program.say("number one is at 250, want 250 and steady", 1)) == set()


def test_a_cooker_in_a_reading(program):
    reply = program.send(reading={"cooker": "two", "dome_f": 310}, at_min=0)
    assert reply["heard"] == {"cooker": "two", "dome_f": 310}
    assert program.send(cooker="2", at_min=1)["situation"]["dome_f"] == 310
