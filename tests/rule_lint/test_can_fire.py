"""Check `can-fire`: rules that no situation can bring to fire."""

import pytest


@pytest.mark.parametrize(("when", "says"), [
    ({"dome_f": {"at_least": 300, "below": 250}}, "no value can be so that dome_f at least 300 and below 250"),
    ({"dome_f": {"above": 300, "at_most": 300}}, "no value can be so that"),
    ({"smoke": {"not": ["none", "white", "black"]}}, "no value can be so that"),
    ({"overshoot": "far", "over_f": {"below": 10}}, "its conditions exclude one another"),
    ({"overshoot": "far", "windy": True, "over_f": {"at_least": 10, "at_most": 74.9}}, "exclude one another"),
])
def test_conditions_that_exclude_one_another(tiny, when, says):
    tiny.rule("teach/never", when=when)
    assert says in tiny.only("can-fire")


@pytest.mark.parametrize("when", [
    {"dome_f": {"at_least": 250, "at_most": 250}}, {"smoke": {"not": ["none", "white"]}},
    {"overshoot": "far", "over_f": {"at_least": 75, "at_most": 75}}, {"hold_top": {"above": 0.2}},
    {"too-much-air": "likely"}, {"about": "wind", "overshoot": ["small", "far"]},
])
def test_conditions_that_some_situation_meets(tiny, when):
    tiny.rule("teach/sometimes", when=when)
    assert tiny.found("can-fire") == []


def test_a_derived_fact_that_nothing_concludes(tiny):
    tiny.replace("vocabulary.yaml", "derived:\n", "derived:\n  chasing: {type: flag, says: chased}\n")
    tiny.rule("teach/never", when={"chasing": True})
    assert tiny.only("can-fire") == ("teach/never.yaml:5: nothing ever makes it so that chasing is true, the rule can "
                                     "never fire; no rule concludes it; write a rule in understand/ or use another fact")


def test_a_value_that_no_rule_concludes(tiny):
    tiny.replace("vocabulary.yaml", "values: [small, far]", "values: [small, far, huge]")
    tiny.rule("teach/never", when={"overshoot": "huge"})
    assert "rules conclude only far, small for it" in tiny.only("can-fire")


def test_a_finding_no_rule_points_to(tiny):
    tiny.replace("findings.yaml", "findings:\n", "findings:\n  ash-chokes: {family: x, says: Ash.}\n")
    tiny.rule("teach/never", when={"ash-chokes": "possible"})
    assert "no rule points to ash-chokes" in tiny.only("can-fire")


def test_a_grade_that_the_evidence_never_reaches(tiny):
    tiny.rule("teach/never", when={"too-much-air": "certain"})
    assert "taken together reaches 0.60, certain needs 0.85" in tiny.only("can-fire")
    tiny.rule("diagnose/more", then={"points_to": {"too-much-air": 0.7}})
    assert tiny.found("can-fire") == []


@pytest.mark.parametrize(("when", "unless"), [
    ({"windy": True}, {"windy": True}), ({"over_f": {"at_least": 100}}, {"over_f": {"above": 50}}),
    ({"overshoot": "far"}, {"over_f": {"at_least": 75}}), ({"smoke": "white"}, {"smoke": {"known": True}}),
])
def test_unless_that_holds_whenever_when_does(tiny, when, unless):
    tiny.rule("teach/never", when=when, unless=unless)
    assert "whenever `when` holds" in tiny.only("can-fire")


@pytest.mark.parametrize(("when", "unless"), [
    ({"windy": True}, {"lid_open": True}), ({"over_f": {"at_least": 100}}, {"over_f": {"above": 150}}),
    ({"overshoot": ["small", "far"]}, {"over_f": {"at_least": 75}}), ({"dome_f": {"at_least": 1}}, {"dome_f": 5}),
])
def test_unless_that_only_sometimes_holds(tiny, when, unless):
    tiny.rule("teach/sometimes", when=when, unless=unless)
    assert tiny.found("can-fire") == []
