"""Check `vent-moves`: what has been moved must show before it is moved again."""

import pytest


def vent(name: str, opening: float, wait: object = None) -> dict:
    step = {"act": "set_vent", "vent": name, "opening": opening, "says": "Set it."}
    return step | ({"wait_min": wait} if wait is not None else {})


WAIT_4 = {"act": "wait", "says": "Wait.", "wait_min": 4}
READ = {"act": "read_dome", "says": "Read it."}


@pytest.mark.parametrize(("steps", "says"), [
    ([vent("top", 0), vent("top", 0.2)], "the top vent is set twice without a wait"),
    ([vent("top", 0), READ, vent("top", 0.2)], "the top vent is set twice without a wait"),
    ([vent("top", 0), vent("bottom", 0), vent("top", 0.2)], "the top vent is set twice without a wait"),
    ([vent("top", 0, 2), vent("bottom", 0.2)], "the bottom vent is moved 2 min after the last move"),
    ([vent("top", 0), WAIT_4, vent("bottom", 0.2)], "the bottom vent is moved 4 min after the last move"),
    ([vent("top", 0, {"from": "dome_f", "otherwise": 10}), vent("top", 0.2)], "set twice without a wait"),
    ([vent("top", 0), {"act": "burp_lid", "says": "Burp it.", "wait_min": 4.5}, vent("bottom", 0.2)], "moved 4.5 min"),
])
def test_moves_too_soon(tiny, steps, says):
    tiny.steps(*steps)
    assert says in tiny.only("vent-moves")


@pytest.mark.parametrize("steps", [
    [vent("top", 0), vent("bottom", 0)], [vent("top", 0, 5), vent("top", 0.2)],
    [vent("top", 0), WAIT_4, READ, {**WAIT_4, "wait_min": 1}, vent("top", 0.2)], [WAIT_4, vent("top", 0)],
    [vent("top", 0), vent("bottom", 0, 5), vent("top", 1), vent("bottom", 1)],
])
def test_moves_in_time(tiny, steps):
    tiny.steps(*steps)
    assert tiny.found("vent-moves") == []


def test_an_emergency_may_move_sooner_but_not_the_same_vent_in_one_go(tiny):
    tiny.steps(vent("top", 0, 1), vent("bottom", 0), standing="emergency")
    assert tiny.found("vent-moves") == []
    tiny.steps(vent("top", 0), vent("top", 1), standing="emergency")
    assert "set twice" in tiny.only("vent-moves")
