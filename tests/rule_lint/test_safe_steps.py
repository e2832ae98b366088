"""Check `safe-steps`: dangerous deeds bring their cautions, and no words slip past them."""

import pytest


def test_an_act_that_opens_the_lid_without_the_crack_first_caution(tiny):
    tiny.replace("acts.yaml", "    needs: [open-a-crack-first]\n", "")
    assert any("burp_lid opens the lid without open-a-crack-first" in line for line in tiny.found("safe-steps"))


def test_the_crack_first_caution_must_be_a_danger(tiny):
    tiny.replace("cautions.yaml", "level: danger", "level: warning")
    assert "open-a-crack-first as a danger" in tiny.only("safe-steps")


def test_a_needed_caution_that_would_never_be_shown(tiny):
    tiny.replace("cautions.yaml", "level: warning", "level: warning\n    bears_on: [wait]")
    tiny.replace("acts.yaml", "needs: [open-a-crack-first]", "needs: [open-a-crack-first, sparks-fly]")
    assert "burp_lid needs sparks-fly, which does not bear on it" in tiny.only("safe-steps")


@pytest.mark.parametrize(("act", "says"), [
    ("wait", "Open the lid and let it air."), ("wait", "Wait, then lift the lid."), ("read_dome", "Burp it twice."),
    ("wait", "Lid up for a minute."), ("burp_lid", "Burp it and splash water on the fat."),
    ("wait", "Hose it down."), ("wait", "Roll it into the garage."), ("wait", "Put it under a roof."),
])
def test_words_that_ask_for_what_the_act_does_not_bring_cautions_for(tiny, act, says):
    tiny.steps({"act": act, "says": says})
    assert tiny.only("safe-steps").startswith("recover/probe.yaml:10: the step")


@pytest.mark.parametrize(("act", "says"), [
    ("wait", "Do not open the lid."), ("wait", "Never water on it."), ("keep_lid_shut", "Leave the lid down."),
    ("burp_lid", "Burp it - lift the lid an inch."), ("wait", "Keep it out of the garage."),
    ("read_dome", "Read it. Still over - one more burp then."), ("wait", "Lid down, no water, hands off."),
])
def test_words_that_forbid_or_are_covered(tiny, act, says):
    tiny.steps({"act": act, "says": says})
    assert tiny.found("safe-steps") == []
