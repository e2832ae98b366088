"""Check `engine`: what the matcher can't take is found before anybody asks for advice."""


def test_a_circle_through_unless_is_found_at_the_rule(tiny):
    tiny.rule("understand/circle", when={"windy": True}, unless={"overshoot": "far"}, then={"know": {"overshoot": "far"}})
    assert "understand/circle waits for itself" in tiny.only("engine")


def test_too_many_conditions_are_found(tiny):
    when = {"dome_f": 1, "target_f": 100, "over_f": 80, "top_vent": 0, "bottom_vent": 0, "windy": True, "smoke": "none",
            "lid_open": False}
    tiny.rule("understand/many", when=when)
    assert tiny.only("engine").startswith("understand/many.yaml:4: understand/many#0 has 8 conditions")


def test_seven_conditions_are_fine(tiny):
    when = {"dome_f": 1, "target_f": 100, "over_f": 80, "top_vent": 0, "bottom_vent": 0, "windy": True, "smoke": "none"}
    tiny.rule("understand/seven", when=when)
    assert tiny.found("engine") == []
