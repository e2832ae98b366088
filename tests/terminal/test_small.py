"""What a small screen would have scrolled off is said again."""

from advisor.terminal.small import ABOVE, said_again

REPLY = [("plain", "It is hot."), ("plain", ""), ("step", "1. Shut the top\n   vent."), ("danger", "!! DANGER: Stand\n!! aside."),
         ("step", "2. Wait."), ("plain", ""), ("plain", "Look again in\n5 minutes."), ("question", "Tell me: smoke?")]
SHORT = [("plain", f"{ABOVE}top vent shut.")]
DANGER = [REPLY[3]]
HEIGHT = 11


def again(rows):
    return said_again(REPLY, rows + 2 + 1, None, "top vent shut")  # prompt and bar, the blank line


def test_what_is_seen_whole_is_not_said_again():
    assert again(HEIGHT) == again(HEIGHT - 2) == []


def test_a_step_that_is_gone_is_said_in_short():
    calm = [piece for piece in REPLY if piece[0] != "danger"]
    assert said_again(calm, 7 + 2, None, "top vent shut") == SHORT
    assert said_again(calm, 7 + 2, None, "") == []


def test_a_danger_is_said_whole_also_where_only_what_is_said_again_pushes_it_off():
    assert again(2) == DANGER + SHORT
    assert again(HEIGHT - 3) == DANGER + SHORT, "nine rows would hold it, but not above the short line and its blank one"


def test_nothing_is_said_again_of_what_holds_no_step():
    assert said_again([("plain", "line")] * 50, 20, 40, "burp the lid") == []


def test_it_is_broken_to_the_width():
    assert said_again(REPLY, 5, 30, "burp the lid slowly")[-1][1].count("\n") >= 1
