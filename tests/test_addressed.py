"""Several cookers, named in passing: by name alone, and with "done"."""

import pytest


@pytest.fixture
def two(conversation):
    """Two cookers, both with steps to do; the second one in hand."""
    conversation.say("number one is at 350, want 250", 0)
    conversation.say("the second one is at 310, want 225", 1)
    return conversation


@pytest.mark.parametrize("words", ["number 1", "what about number one", "cooker 1?", "the first one"])
def test_a_name_alone_asks_what_to_do_there(two, words):
    reply = two.say(words, 2)
    assert (reply.cooker, reply.understood) == ("1", True)
    assert "1. Shut the bottom vent" in reply.text and "I only know" not in reply.text


@pytest.mark.parametrize("words", ["number 1 done", "number one done", "the first one is done", "done with number 1"])
def test_done_with_a_name_is_all_that_is_in_hand_there(two, words):
    reply = two.say(words, 3)
    assert reply.cooker == "1" and reply.situation["bottom_vent"] == reply.situation["top_vent"] == 0
    ends = {standing.cooker: (standing.left_min, standing.hands_off) for standing in two.standings(3)}
    assert ends == {"1": (5, True), "2": (3, False)}


def test_a_step_that_is_named_is_that_step(two):
    reply = two.say("step 1 done on number 1", 3)
    assert reply.situation["bottom_vent"] == 0 and "top_vent" not in reply.situation


def test_a_cooker_with_a_name_in_words(conversation):
    conversation.switch("left", 0)
    conversation.say("dome 350, want 250", 0)
    conversation.switch("right", 1)
    assert conversation.say("the left one is done", 2).situation["top_vent"] == 0
