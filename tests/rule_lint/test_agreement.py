"""Check `agreement`: rules of understand/ that conclude different values at once."""


def test_overlapping_bounds(tiny):
    tiny.replace("understand/touch-over--under-seventy-five.yaml", "below: 75", "at_most: 75")
    said = tiny.only("agreement")
    assert said.startswith("understand/touch-over--under-seventy-five.yaml:7: overshoot is small here and far in "
                           "understand/far-over--seventy-five, both fire on {over_f: 75}")


def test_overlap_across_facts(tiny):
    tiny.rule("understand/black-is-far", when={"smoke": "black"})
    assert "smoke: black" in tiny.only("agreement")


def test_unless_tells_them_apart(tiny):
    tiny.rule("understand/black-is-far", when={"smoke": "black"}, unless={"over_f": {"known": True}})
    assert tiny.found("agreement") == []


def test_the_same_value_is_no_dispute(tiny):
    tiny.rule("understand/hundred", when={"over_f": {"at_least": 100}})
    assert tiny.found("agreement") == []
