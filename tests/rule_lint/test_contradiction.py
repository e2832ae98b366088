"""Check `contradiction`: clashing procedures of equal standing, shown by a situation in which both fire."""

import pytest

FIRE = {"concern": "fire", "standing": "correct"}
OPEN_TOP = {**FIRE, "steps": [{"act": "set_vent", "vent": "top", "opening": 1, "says": "Open the top vent."}]}
SHUT_TOP = {**FIRE, "steps": [{"act": "set_vent", "vent": "top", "opening": 0, "says": "Shut the top vent."}]}


def test_one_vent_set_differently(tiny):
    tiny.rule("recover/a", when={"windy": True}, then=OPEN_TOP)
    tiny.rule("recover/b", when={"over_f": {"at_least": 50}}, fires=[{"over_f": 50}], then=SHUT_TOP)
    said = tiny.only("contradiction")
    assert said.startswith("recover/b.yaml:4: it fires together with recover/a on {")
    assert "windy: true" in said and "over_f: 50" in said
    assert "the top vent goes to 0 here and to 1 there, and both are correct for the fire" in said


def test_acts_against_each_other(tiny):
    tiny.rule("recover/a", then={**FIRE, "steps": [{"act": "keep_lid_shut", "says": "Lid down."}]})
    tiny.rule("recover/b", then={**FIRE, "steps": [{"act": "burp_lid", "says": "Burp it."}]})
    assert "burp_lid here can't stand beside keep_lid_shut there" in tiny.only("contradiction")


def test_found_without_cases_and_through_derived_facts(tiny):
    tiny.rule("recover/a", when={"overshoot": "far", "windy": True}, then=OPEN_TOP)
    tiny.rule("recover/b", when={"overshoot": ["small", "far"], "smoke": "black"}, then=SHUT_TOP)
    for rule in "ab":
        (tiny.folder / f"recover/{rule}.cases.yaml").unlink()
    assert "smoke: black" in tiny.only("contradiction")


def test_found_for_two_rules_on_the_same_finding(tiny):
    tiny.rule("recover/a", when={"too-much-air": "likely"}, then=OPEN_TOP)
    assert "it fires together with recover/a" in tiny.only("contradiction")


@pytest.mark.parametrize(("one", "other"), [
    ({"when": {"windy": True}}, {"when": {"windy": False}}),
    ({"when": {"overshoot": "far"}}, {"when": {"overshoot": "small"}}),
    ({"when": {"overshoot": "far"}}, {"when": {"over_f": {"below": 75}}}),
    ({"when": {"windy": True}, "unless": {"smoke": "black"}}, {"when": {"smoke": "black"}}),
    ({"when": {"windy": True}}, {"when": {"too-much-air": "likely"}}),  # told apart by certainty
    ({"when": {"windy": True}}, {"then": {**SHUT_TOP, "standing": "rescue"}}),
    ({"when": {"windy": True}}, {"then": {**SHUT_TOP, "concern": "smoke"}}),
    ({"when": {"windy": True}}, {"then": OPEN_TOP}),
])
def test_rules_that_something_tells_apart(tiny, one, other):
    (tiny.folder / "recover/too-much-air--shut-it.yaml").unlink()
    tiny.rule("recover/a", **{"then": OPEN_TOP, **one})
    tiny.rule("recover/b", **{"then": SHUT_TOP, **other})
    assert tiny.found("contradiction") == []
