"""Steps that nobody reports done, and vents shut a second time."""

import pytest

from advisor.conversation import Conversation
from advisor.rulebook.loader import read_rulebook

RULEBOOK = read_rulebook()
FAR_OVER = "dome 350, want 250, bottom vent half open, top vent half open, been cooking 3 hours"


@pytest.fixture
def talk():
    return Conversation(RULEBOOK)


def test_a_reading_when_asked_for_shows_the_steps_done(talk):
    talk.say(FAR_OVER, 0)
    reply = talk.reading({"dome_f": 345}, 5)
    assert reply.situation["bottom_vent"] == reply.situation["top_vent"] == 0.0
    assert reply.situation["vents_moved_ago_min"] == 5.0
    assert RULEBOOK.catalogue.phrases["presumed_done"] in reply.text


def test_words_show_it_too_unless_they_say_how_the_vents_stand(talk):
    talk.say(FAR_OVER, 0)
    assert talk.say("now 345", 6).situation["top_vent"] == 0.0
    talk.reset()
    talk.say(FAR_OVER, 0)
    assert talk.say("now 345, top vent still half open", 6).situation["top_vent"] == 0.5


@pytest.mark.parametrize("told, at", [({"dome_f": 345}, 2), ({"smoke": "thin_blue"}, 6), ({"dome_f": 345, "top_vent": 0.5}, 6)])
def test_nothing_is_presumed_too_early_or_without_a_reading(talk, told, at):
    talk.say(FAR_OVER, 0)
    assert talk.reading(told, at).situation["bottom_vent"] == 0.5


@pytest.mark.parametrize(("words", "act", "leaves"), [
    ("stuck at 180, want 250, both vents wide open", "clear_ash", "ash_cleared_ago_min"),
    ("180, want 250, steady, both vents wide open, the charcoal is nearly gone", "add_fuel", "fuel_added_ago_min"),
])
def test_other_deeds_at_the_fire_are_taken_for_done_too(talk, words, act, leaves):
    told = talk.say(words, 0)
    in_hand = [step.act for step in told.steps if step.n in talk.current.steps_in_hand()]
    assert act in in_hand
    late = talk.current.waiting.until_min
    assert leaves in talk.reading({"dome_f": 182}, late).situation
    talk.reset()
    talk.say(words, 0)
    assert leaves not in talk.reading({"dome_f": 182}, 1).situation


def test_what_is_only_looked_at_is_not_taken_for_done(talk):
    talk.say("dome 250, target 250", 0)
    assert talk.reading({"dome_f": 251}, 30).steps and talk.current.deeds == ()


def test_a_fire_choked_a_second_time_is_given_air_again(talk):
    talk.say("dome 180, want 250, both vents shut for 20 minutes, been cooking 3 hours", 0)
    talk.reading({"bottom_vent": 1.0, "top_vent": 1.0}, 1)
    assert any(step.act == "set_vent" for step in talk.reading({"dome_f": 340}, 30).steps)
    talk.reading({"bottom_vent": 0.0, "top_vent": 0.0}, 31)
    opened = [step for step in talk.reading({"dome_f": 252}, 45).steps if step.act == "set_vent"]
    assert {step.parameters["vent"] for step in opened} == {"top", "bottom"}
