"""Check `amounts`: figures taken from facts that may be unknown."""

import pytest


def top(amount: dict, **keys) -> dict:
    return {"act": "set_vent", "vent": "top", "opening": amount, "says": "Set it.", **keys}


def test_an_opening_from_a_fact_that_may_be_unknown(tiny):
    tiny.steps(top({"from": "hold_top"}))
    assert tiny.only("amounts").startswith("recover/probe.yaml:12: opening is taken from hold_top, which may be unknown")


def test_a_wait_and_a_due_bound_from_such_a_fact(tiny):
    tiny.steps({"act": "wait", "says": "Wait.", "wait_min": {"from": "over_f"},
                "when": {"over_f": {"at_least": {"from": "target_f"}}}})
    found = tiny.found("amounts")
    assert [line.split(" is taken")[0].split(": ")[1] for line in found] == ["wait_min", "at_least"]


@pytest.mark.parametrize(("when", "amount"), [
    ({"windy": True}, {"from": "hold_top", "otherwise": 0.1}), ({"windy": True}, {"from": "inch_bottom"}),
    ({"target_f": {"known": True}}, {"from": "hold_top"}), ({"top_vent": {"above": 0}}, {"from": "top_vent"}),
    ({"dome_f": {"above": 300}, "over_f": {"above": 10}}, {"from": "settle_top"}),
])
def test_a_fact_known_for_sure(tiny, when, amount):
    tiny.steps(top(amount), when=when)
    assert tiny.found("amounts") == []


def test_known_in_one_of_two_ways_only_is_not_known(tiny):
    tiny.rule("understand/read", when={"dome_f": {"at_least": 400}, "target_f": {"at_most": 300}})
    tiny.steps(top({"from": "hold_top"}), when={"overshoot": "far"})
    assert "may be unknown" in tiny.only("amounts")


def test_a_dome_bound_by_the_target_needs_no_target(tiny):
    tiny.steps({"act": "wait", "says": "Wait.", "when": {"dome_f": {"at_most": {"from": "target_f", "plus": 5}}}})
    assert tiny.found("amounts") == []
