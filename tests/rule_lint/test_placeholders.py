"""Check `placeholders`: no hole in what the cook reads."""

import pytest


@pytest.mark.parametrize("says", ["Wait until {target_f}.", "Wait {wait_min}."])
def test_a_step_with_a_hole(tiny, says):
    tiny.steps({"act": "wait", "says": says})
    assert "may be unknown, the words have a hole" in tiny.only("placeholders")


@pytest.mark.parametrize("step", [
    {"act": "wait", "says": "Wait until {target_f|it is there}."},
    {"act": "wait", "says": "Wait {wait_min}.", "wait_min": 5},
    {"act": "burp_lid", "says": "Burp it {times}.", "times": 2}])
def test_a_step_without_a_hole(tiny, step):
    tiny.steps(step)
    assert tiny.found("placeholders") == []


def test_what_when_names_is_known_and_what_follows_from_it(tiny):
    tiny.steps({"act": "wait", "says": "Wait until {settle_f}, not {target_f}."}, when={"target_f": {"known": True}})
    assert tiny.found("placeholders") == []


def test_works_if_knows_only_what_when_names(tiny):
    then = {"concern": "gear", "standing": "check", "steps": [{"act": "read_dome", "says": "Read."}]}
    tiny.rule("recover/probe", when={"target_f": {"known": True}}, then={**then, "works_if": "it is at {settle_f}."})
    assert "{settle_f} may be unknown" in tiny.only("placeholders")


def test_an_answer_with_a_hole(tiny):
    tiny.rule("teach/hole", then={"tell": "It reads {dome_f}."})
    assert "{dome_f} may be unknown" in tiny.only("placeholders")


@pytest.mark.parametrize("key", ["title", "because"])
def test_texts_that_are_said_as_they_stand(tiny, key):
    tiny.rule("teach/braces", **{key: "At {dome_f} it flares"})
    assert f"{{dome_f}} stands in {key}" in tiny.only("placeholders")


def test_findings_know_what_all_rules_that_point_to_them_know(tiny):
    tiny.replace("findings.yaml", "It gets too much air.", '"It is {over_f} over."')
    assert tiny.found("placeholders") == []
    tiny.rule("diagnose/other", then={"points_to": {"too-much-air": 0.5}})
    assert "findings.yaml:2: {over_f} may be unknown" in tiny.only("placeholders")


def test_cautions_and_questions_know_nothing(tiny):
    tiny.replace("cautions.yaml", "Sparks fly in the wind.", '"At {dome_f} sparks fly."')
    tiny.replace("vocabulary.yaml", "Is it windy?", '"Windy at {dome_f}?"')
    assert len(tiny.found("placeholders")) == 2
