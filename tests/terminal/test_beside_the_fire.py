"""Whole recoveries on a real screen: timers that go off while somebody types, small screens, crashes, two cookers.

DRAFTHAND_CLOCK_RATE makes a second of these tests a minute and more of the cook.
"""

import os
import re
import time

import pytest
from screen import TMUX, Screen

pytestmark = pytest.mark.skipif(TMUX is None and "CI" not in os.environ, reason="tmux is not installed here")

FIVE_UP = r"5 minutes are up\. Tell me what the dome reads - next would be: burp the lid\."
COUNTING = r"(\d+):(\d\d) hands off - then burp the lid"


@pytest.fixture
def screen(tmp_path):
    """screen(columns=..., settings=...) -> a Screen with the talk open in it; all are closed in the end."""
    opened = []

    def make(folder=tmp_path, **how):
        made = Screen(folder, **how)
        opened.append(made)
        made.open()
        return made

    yield make
    for made in opened:
        made.close()


def shut_both(fire):
    """Told of a runaway and both vents shut: five minutes run."""
    fire.enter("the dome is at 350, want 250")
    fire.wait_for(r"Look again in 5 minutes")
    fire.enter("done")
    fire.wait_for(r"Both vents shut, lid down\. Give it 5 minutes more")


def test_a_recovery_with_a_wait_that_ends_while_somebody_types(screen):
    fire = screen(rate=100)
    fire.wait_for_bar("no timer runs")
    shut_both(fire)
    fire.wait_for_bar(COUNTING)
    fire.type("the dome rea")
    fire.wait_for(FIVE_UP)
    assert "fire> the dome rea" in fire.shown().splitlines(), "what was half typed stands there still"
    fire.enter("ds 340 now")
    fire.wait_for(r"fire> the dome reads 340 now Still the same plan: burp the lid\.")
    fire.enter("done")
    fire.wait_for(r"Wait (9|10) minutes more")
    fire.wait_for(r"10 minutes are up")
    fire.enter("250")
    fire.wait_for(r"Still the same plan: top vent [a-z ]+, then bottom vent a quarter open\.")
    fire.enter("done")
    fire.wait_for("The vent has only just moved")
    fire.enter("make it 300")
    fire.wait_for(r"Changed: [a-z, ]+ - because you want 300 °F now\.")
    fire.press("Enter")
    fire.wait_for("In hand, [0-9]+ minutes? left: .* Next: ")
    fire.enter("/quit")
    fire.wait_for(r"Mind the ash\. Start me again and we go on; the timers do not stop\. left with 0")


def test_nobody_answers(screen):
    fire = screen(rate=180, settings="remind_again_min: 3\n")
    shut_both(fire)
    fire.wait_for(f"Still waiting for you - {FIVE_UP}")
    time.sleep(2)  # six minutes of the cook
    assert len(re.findall("5 minutes are up", fire.shown())) == 2, "once, once more, and no more"
    fire.wait_for_bar("time is up - then burp the lid")


def test_a_screen_that_is_small_and_changes_its_size_while_a_timer_runs(screen):
    fire = screen(columns=40, lines=24, rate=10)
    shut_both(fire)
    fire.type("half a thought")
    fire.wait_for_bar(COUNTING)
    assert max(map(len, fire.lines())) <= 40
    fire.resize(30, 20)
    fire.wait_for(r"fire> half a thought \d:\d\d hands off$")
    assert max(map(len, fire.lines())) <= 30
    fire.resize(100, 30)
    fire.wait_for(f"fire> half a thought {COUNTING}$")
    fire.enter(" about smoke")
    fire.wait_for("fire> half a thought about smoke")


def test_on_a_small_screen_what_to_do_and_what_is_dangerous_never_scrolls_away(screen):
    fire = screen(columns=40, lines=24, rate=1)
    fire.enter("the dome is at 350, want 250")
    fire.wait_for("the steps stand above: both vents shut")
    on_it = " ".join(" ".join(fire.lines()).split())
    assert "!! DANGER: Before step 3: Crack the lid" in on_it and "the steps stand above: both vents shut" in on_it


def test_ctrl_c_clears_the_line_and_nothing_else(screen):
    fire = screen(rate=20)
    shut_both(fire)
    fire.type("dome 900")
    fire.press("C-c")
    fire.enter("what now")
    fire.wait_for(r"350 °F, 100 °F over your 250 °F")
    fire.wait_for(r"In hand, \d minutes? left: Both vents shut")
    assert "900 °F" not in fire.shown()


def test_killed_and_started_again_it_goes_on_with_the_same_step_and_the_right_time(screen):
    fire = screen(rate=10)
    shut_both(fire)
    before, at = left_s(fire), time.monotonic()
    fire.kill()
    fire.open()
    fire.wait_for("We go on where we were")
    fire.wait_for(r"In hand, \d minutes? left: Both vents shut, lid down")
    after = left_s(fire)
    passed_s = (time.monotonic() - at) * 10
    assert abs(before - passed_s - after) < 20, "twenty seconds of the cook: two of the test"


def left_s(fire):
    """Seconds of the cook left on the bar."""
    minutes, seconds = fire.wait_for_bar(COUNTING).groups()
    return 60 * int(minutes) + int(seconds)


def test_two_cookers_and_answers_out_of_order(screen):
    fire = screen(rate=80)
    fire.enter("number one is at 350, want 250. the second one is at 310, want 225")
    fire.wait_for("1>")
    fire.enter("the second one is at 320")
    fire.wait_for("2>")
    fire.enter("done")
    fire.wait_for("Both vents shut, lid down")
    fire.wait_for("Cooker 1: 5 minutes (gone by|are up)")
    fire.wait_for("Cooker 2: 5 minutes are up")
    fire.enter("/board")
    fire.wait_for(r"left in hand 1 350 °F 250 °F - over both vents shut 2\* 320 °F 225 °F \S+ over burp the lid")


def test_a_terminal_that_can_draw_nothing_gets_plain_lines(screen):
    fire = screen(rate=100, TERM="dumb")
    shut_both(fire)
    fire.type("the dome rea")
    fire.wait_for(f"fire> the dome rea {FIVE_UP} fire> the dome rea$")


@pytest.mark.parametrize("settings", ["", "screen_reader: yes\n"])
def test_two_tills_see_each_other(screen, place, tmp_path_factory, settings):
    """What one is told shows at the other within seconds, with nothing typed there."""
    one_clock = f"30@{time.time() / 60}"
    here, there = (screen(settings=settings, folder=tmp_path_factory.mktemp("till"), DRAFTHAND_LOGBOOK=place,
                          DRAFTHAND_CLOCK_RATE=one_clock) for _ in range(2))
    shut_both(there)
    if settings:
        here.enter("/board")
        here.wait_for(r"The cooker: dome 350 °F, target 250 °F\. .*\d minutes left")
    else:
        here.wait_for_bar(COUNTING)
        assert abs(left_s(here) - left_s(there)) < 60, "a minute of the cook: two seconds of the test"
    here.wait_for(FIVE_UP)
    there.wait_for(FIVE_UP)
    here.enter("340")
    here.wait_for(r"Still the same plan: burp the lid\.")
    there.wait_for_bar(r"\d+:\d\d burp the lid") if not settings else time.sleep(3)
    there.enter("/facts")
    there.wait_for("340 °F")


def test_plain_lines_for_a_screen_reader(screen):
    fire = screen(rate=100, settings="screen_reader: yes\n")
    shut_both(fire)
    fire.type("the dom rea")
    fire.press(*["BSpace"] * 4)
    fire.type("e rea")
    fire.wait_for(f"fire> the dome rea {FIVE_UP} fire> the dome rea$")
    assert "no timer runs" not in fire.shown() and "hands off -" not in fire.shown()
    fire.press(*["BSpace"] * 3)
    fire.type("shows")
    fire.wait_for("fire> the dome shows$")
    fire.enter(" 340")
    fire.wait_for(r"fire> the dome shows 340 Still the same plan: burp the lid\.")
    fire.enter("/board")
    fire.wait_for(r"The cooker: dome 340 °F, target 250 °F, falling\. Burp the lid\. \d+ minutes left\.")
    fire.type("gone")
    fire.press("C-c")
    fire.wait_for("Ctrl-D or /quit leaves")
    fire.enter("/quit")
    fire.wait_for("left with 0")
