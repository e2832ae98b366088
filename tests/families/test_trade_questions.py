"""Questions of the trade in plain words are answered, with or without a reading, and reasons are given to "why"."""

import re
from functools import partial
from pathlib import Path

import pytest
import yaml
from holding import hold

talk = partial(hold, each_min=1.0)
TALK = yaml.safe_load((Path(__file__).parent.parent / "data" / "trade_questions.yaml").read_text(encoding="utf-8"))
ASKED = [(rule, turns) for rule, talks in TALK.items() for turns in talks]

STAFF = yaml.safe_load((Path(__file__).parent.parent / "data" / "staff_questions.yaml").read_text(encoding="utf-8"))


@pytest.mark.parametrize(("rule", "question"), [(rule, question) for rule, asked in STAFF.items() for question in asked])
def test_no_question_of_new_staff_is_deaf(rulebook, rule, question):
    reply = talk(rulebook, [question])[-1]
    assert [answer.because for answer in reply.answers] == [rule]
    assert reply.answers[0].says.split(".")[0] in reply.text


def test_a_question_nobody_can_answer_is_not_passed_over(rulebook):
    reply = talk(rulebook, ["can I hang it from the ceiling?"])[-1]
    assert reply.text.startswith(rulebook.catalogue.phrases["no_answer"])


def test_a_question_in_the_middle_of_a_plan_gets_its_answer_and_not_the_plan_again(rulebook):
    first, second = talk(rulebook, ["dome 310 want 250, top half open", "how long does it take to answer"])
    assert "hands off for ten minutes before you read" in second.text
    assert first.steps == second.steps and first.steps[0].says not in second.text


def test_the_danger_is_said_beside_an_answer_in_the_middle_of_a_plan(rulebook):
    _, second = talk(rulebook, ["dome 420 want 250, both vents shut", "what's a flashback"])
    dangers = [caution.says for caution in second.cautions if caution.level == "danger"]
    assert dangers and all(danger in second.text for danger in dangers)


@pytest.mark.parametrize(("rule", "turns"), ASKED, ids=[turns[-1] for _, turns in ASKED])
def test_the_question_is_answered(rulebook, rule, turns):
    reply = talk(rulebook, turns)[-1]
    assert [answer.because for answer in reply.answers] == [rule]
    assert reply.answers[0].says.split(".")[0] in reply.text


@pytest.mark.parametrize("turns", [
    ["how do i light it for low and slow", "why cant i just leave it open till its hot"],
    ["dome 330 want 250", "why"], ["dome 330 want 250", "why not open the lid"],
    ["dome 250 want 250", "why not burp it"], ["white smoke, lit 15 min ago", "why cant i put the ribs on now"],
    ["blowing a gale, swinging 220 to 290, want 250", "why"],
], ids=lambda turns: turns[-1])
def test_reasons_are_given_in_a_cooks_words(rulebook, turns):
    text = talk(rulebook, turns)[-1].text
    assert not [rule for rule in rulebook.by_id if rule in text]
    assert not re.search(r"[+-]0\.\d\d|is not known|_[a-z]|\btrue\b|\bfalse\b", text)


@pytest.mark.parametrize(("turns", "reason"), [
    (["how do i light it for low and slow", "why only one starter"], "Every lit spot is a fire you have to feed"),
    (["white smoke, lit 15 min ago", "why cant i put the ribs on now"], "Cold meat takes up most smoke at the start"),
])
def test_a_why_about_the_trade_gets_the_reason(rulebook, turns, reason):
    assert reason in talk(rulebook, turns)[-1].text


@pytest.mark.parametrize("danger", ["my head hurts, its in the garage", "its in the garage, its lit", "drip pan is on fire"])
@pytest.mark.parametrize("question", ["how do i sear a steak", "should i close the top vent", "how do i raise the temp",
                                      "do i need the deflector", "how do i lower the temp", "when do i shut the lid"])
def test_no_steering_is_taught_while_people_are_in_danger(rulebook, danger, question):
    taught = {answer.because for answer in talk(rulebook, [danger, question])[-1].answers}
    assert taught <= {"teach/searing--not-now", "teach/lid-position--fat-burns"}
