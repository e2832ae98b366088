"""While people are in danger: the answer first, the steps again, nothing that sends anybody back to the fire."""

import re

import pytest

EMERGENCIES = ["help, the drip pan is burning, flames out of the top", "the fence is on fire",
               "im in the tent with the cooker and i have a headache", "grease fire in the garage"]
STANDING = [*EMERGENCIES, "its in the garage, door is up"]
NO_HELP = ["asdf", "who won the game", "hose??", "my boss will kill me", "ok", "hello", "thanks", "is it safe now", "why",
           "why not open the lid", "should i throw water on it"]


@pytest.mark.parametrize("danger", STANDING)
@pytest.mark.parametrize("words", NO_HELP)
def test_nobody_in_danger_is_told_of_charcoal_or_asked_for_the_dome(program, danger, words):
    program.say(danger, 0)
    reply = program.say(words, 1)
    assert "I only know charcoal fires" not in reply["text"] and "dome 310" not in reply["text"]
    assert not reply["asks"] or reply["asks"]["fact"] not in ("dome_f", "target_f", "trend")


@pytest.mark.parametrize("danger", EMERGENCIES)
@pytest.mark.parametrize("words", NO_HELP)
def test_the_steps_of_an_emergency_stand_in_every_reply(program, danger, words):
    steps = program.say(danger, 0)["steps"]
    text = program.say(words, 1)["text"]
    assert all(f"{step['n']}. {step['says']}" in text for step in steps)


@pytest.mark.parametrize("words", ["should i throw water on it", "shut the vents, do i put water on it", "what about flour",
                                   "is it safe now"])
def test_a_question_in_a_fire_is_answered_first(program, words):
    program.say(EMERGENCIES[0], 0)
    assert program.say(words, 1)["text"].startswith("No.")


@pytest.mark.parametrize("words", ["its fine the door is open", "the window's open", "theres a fan on", "its just for a minute"])
def test_an_open_door_is_contradicted(program, words):
    program.say("its in the garage", 0)
    assert program.say(words, 1)["text"].startswith("No - an open door")


@pytest.mark.parametrize("danger", [*STANDING, "there is painted wood in it, yellow smoke, dome 240, want 250, windy"])
def test_why_gives_the_reason_of_the_danger_alone(program, danger):
    program.say(danger, 0)
    program.say("windy, dome 240, want 250", 1)
    text = program.say("why", 2)["text"]
    assert "%" not in text and "touch under" not in text and "weather" not in text


@pytest.mark.parametrize("words", ["is it still going", "how do i know its out", "shut the vents and is it still burning"])
def test_nobody_looks_through_or_over_a_vent_while_fat_burns(program, words):
    program.say("the grease is on fire", 0)
    assert not re.search(r"(through|over|into) (the|a) (top|bottom)? ?vent", program.say(words, 1)["text"])


def test_the_lids_danger_is_short_where_no_step_opens_it_and_says_which_step_where_one_does(program):
    reply = program.say("done for the night, both vents are shut, dome 400", 0)
    opens = {"burp_lid", "open_lid_slowly", "take_food_off"}
    caution = next(caution for caution in reply["cautions"] if caution["id"] == "open-a-crack-first")
    assert not opens & {step["act"] for step in reply["steps"]}
    assert "Crack the lid first" not in reply["text"] and caution["says"].startswith("Leave the lid down")
    program.send(reset=True)
    reply = program.say("dome 320, want 250, both vents have been shut for ten minutes", 0)
    step = next(step for step in reply["steps"] if step["act"] in opens)
    assert f"DANGER: Before step {step['n']}: Crack the lid first" in reply["text"]
