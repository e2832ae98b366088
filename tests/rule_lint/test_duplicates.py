"""Check `duplicates`: the same rule twice."""


def test_the_same_conditions_in_another_order_with_the_same_conclusion(tiny):
    tiny.rule("diagnose/copy", when={"overshoot": ["small", "far"], "windy": True}, title="Other words",
              then={"points_to": {"too-much-air": 0.6}})
    assert "it says the same as diagnose/copy" in tiny.only("duplicates")


def test_another_bound_another_blocker_or_another_conclusion_is_another_rule(tiny):
    tiny.rule("teach/a", when={"over_f": {"above": 10}})
    tiny.rule("teach/b", when={"over_f": {"at_least": 10}})
    tiny.rule("teach/c", when={"over_f": {"above": 10}}, unless={"windy": True})
    tiny.rule("teach/d", when={"over_f": {"above": 10}}, then={"tell": "Other."})
    assert tiny.found("duplicates") == []
