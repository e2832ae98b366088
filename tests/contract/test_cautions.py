"""Cautions: danger before the step it bears on, repeated in every reply while it lasts, gone when it is over."""

import pytest
from outside import acts, dangers

LASTING = {
    "grease fire": ("the grease is on fire", None),
    "flames": ("flames are coming out of the top", "the flames are gone"),
    "carbon monoxide": ("cooking in the garage, it is lit", None),
    "headache": ("im in the tent with the cooker and i have a headache", None),
    "treated wood": ("there is painted wood in it and yellow smoke", None),
    "starved fire": ("dome 450, want 250, both vents have been shut 20 minutes", None),
}
TALK = ["thanks", "why", "why not open the lid", "what if it rises", "who won the game", "hello", "no idea",
        "can't do that", "asdf", "", "what should i do", "how much charcoal do i need"]


@pytest.mark.parametrize("case", LASTING)
def test_a_danger_is_in_every_reply_while_it_lasts(program, case):
    lasts = {caution["id"] for caution in program.say(LASTING[case][0], 0)["cautions"] if caution["level"] == "danger"}
    assert lasts
    for words in TALK:
        reply = program.say(words, 1)
        says = [caution["says"] for caution in reply["cautions"] if caution["level"] == "danger"]
        assert says and all(line in reply["text"] for line in says), (words, reply["text"])


@pytest.mark.parametrize("case", [case for case in LASTING if LASTING[case][1]])
def test_a_danger_is_gone_when_it_is_over(program, case):
    before = dangers(program.say(LASTING[case][0], 0))
    assert not before & dangers(program.say(LASTING[case][1], 240))


@pytest.mark.parametrize("line", [{"reading": {"dome_f": 300}}, {"done": [1]}])
def test_a_danger_is_in_replies_to_lines_of_other_kinds(program, line):
    program.say("there is painted wood in it and yellow smoke", 0)
    assert dangers(program.send(**line, at_min=1))


@pytest.mark.parametrize("words", ["dome 450, want 250", "both vents shut, dome 450, want 250",
                                   "fire is out and the brisket is on", "basket is nearly empty, dome 200, want 250",
                                   "there is painted wood in it, yellow smoke, ribs are on"])
def test_a_danger_stands_before_the_step_it_bears_on(program, words):
    reply = program.say(words, 0)
    lines = reply["text"].splitlines()
    bears = [caution for caution in reply["cautions"] if caution["level"] == "danger" and caution["bears_on"]]
    assert bears
    for caution in bears:
        warned = next(n for n, line in enumerate(lines) if caution["says"] in line)
        first = next((step for step in reply["steps"] if step["act"] in caution["bears_on"]), None)
        if first:
            assert warned < next(n for n, line in enumerate(lines) if line.startswith(f"{first['n']}. "))


def test_levels_and_sources(program):
    reply = program.say("dome 450, want 250", 0)
    assert {"id", "level", "says", "source"} <= set(reply["cautions"][0])
    assert {caution["level"] for caution in reply["cautions"]} <= {"danger", "warning", "note"}


def test_nobody_is_sent_to_water_on_grease_or_into_a_shut_lid_fire(program):
    reply = program.say("the grease is on fire", 0)
    assert not {"burp_lid", "open_lid_slowly", "put_food_on", "take_food_off"} & set(acts(reply))


# ---- steps that can't be done --------------------------------------------------------------------------------------


def test_a_step_that_cannot_be_done_is_not_advised_again(program):
    first = program.say("dome 400, want 250", 0)["steps"][0]
    for words, at_min in (("can't do that", 1), ("now 390", 3), ("thanks", 4), ("still 390", 20)):
        reply = program.say(words, at_min)
        assert (first["act"], first["vent"]) not in {(step["act"], step.get("vent")) for step in reply["steps"]}
    assert reply["steps"]


@pytest.mark.parametrize("words", ["can't shut the top vent", "i can't move the top vent",
                                   "bottom is shut but i can't shut the top"])
def test_the_vent_named_is_the_one_that_cannot_be_moved(program, words):
    program.say("dome 400, want 250", 0)
    moved = {step.get("vent") for step in program.say(words, 1)["steps"]}
    assert "top" not in moved


def test_step_by_step_the_impossible_goes_and_something_always_remains_to_say(program):
    program.say("dome 400, want 250", 0)
    for n in range(8):
        reply = program.say("can't do that", 1 + n)
        assert reply["understood"] is True
        assert reply["steps"] or reply["asks"] or "If not" in reply["text"]


def test_in_an_emergency_only_the_impossible_step_goes(program):
    before = acts(program.say("the grease is on fire", 0))
    after = acts(program.say("i can't do that", 1))
    assert before[0] not in after
    assert {"keep_people_away", "call_fire_service"} <= set(after)


def test_another_procedure_for_the_same_trouble_comes_first(program):
    program.say("dome 400, want 250, gasket leaks", 0)
    whole = acts(program.last)
    reply = program.say("can't do that", 1)
    assert acts(reply) != whole


def test_a_vent_that_moves_after_all_is_advised_again(program):
    program.say("dome 400, want 250, bottom vent half open", 0)
    assert "bottom" not in {step.get("vent") for step in program.say("can't do that", 1)["steps"]}
    program.send(reading={"bottom_vent": 0.1}, at_min=2)
    assert "bottom" in {step.get("vent") for step in program.say("dome 400", 12)["steps"]}


def test_what_could_not_be_done_is_forgotten_with_the_cook(program):
    program.talk("dome 400, want 250", "can't do that")
    program.send(reset=True)
    assert program.say("dome 400, want 250", 0)["steps"][0]["vent"] == "bottom"
