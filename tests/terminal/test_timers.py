"""Timers on the screen: which line is said when, the bar below the prompt, the board, and the clock for practice."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from advisor.clock import SetClock
from advisor.errors import CommandRefused
from advisor.session import Session
from advisor.settings import Settings
from advisor.terminal import practiceclock
from advisor.terminal.talk import Talk
from advisor.terminal.timers import Timers, countdown
from advisor.terminal.toolbar import toolbar

OVER = "5 minutes are up. Tell me what the dome reads - next would be: burp the lid."


class Fire:
    """A talk on a clock that the test sets."""

    def __init__(self, conversation, **settings):
        self.clock = SetClock(day_minute=16 * 60)
        self.talk = Talk(Session(conversation, None, self.clock), Settings(**settings))

    def at(self, minute, words=None):
        self.clock.set(minute)
        if words:
            self.talk.say(words)
        return self

    def lines(self):
        return list(self.talk.reminders())

    def bar(self, width=80):
        conversation = self.talk.conversation
        return toolbar(self.talk.standings(), conversation.current.name, width, conversation.rulebook.catalogue)


@pytest.fixture
def fire(conversation):
    return Fire(conversation)


@pytest.fixture
def shut(fire):
    """Both vents shut at minute 1."""
    return fire.at(0, "the dome is at 350, want 250").at(1, "done")


# -- the line that a wait is over -----------------------------------------------------------------------------------

def test_a_wait_that_is_over_is_said_once_and_once_more(shut):
    assert shut.at(5.9).lines() == []
    assert shut.at(6).lines() == [OVER]
    assert shut.at(6.1).lines() == shut.at(10.9).lines() == []
    assert shut.at(11.2).lines() == [f"Still waiting for you - {OVER}"]
    assert shut.at(60).lines() == []


def test_an_answer_ends_the_waiting_for_one(shut):
    assert shut.at(6).lines()
    assert shut.at(7, "340").at(11).lines() == []
    assert shut.at(12).lines() == ["5 minutes gone by. Tell me whether this is done, and what the dome reads: burp the lid."]


def test_the_second_line_can_be_had_later_or_not_at_all(conversation):
    fire = Fire(conversation, remind_again_min=0).at(0, "the dome is at 350, want 250").at(1, "done")
    assert fire.at(6).lines() and fire.at(99).lines() == []


def test_a_line_that_could_not_be_shown_is_not_said(shut):
    shut.at(6)
    next(shut.talk.reminders())  # taken, and then the screen broke
    assert shut.lines() == [OVER]


def test_with_several_cookers_the_line_names_its_own(fire):
    fire.at(0, "number one is at 350, want 250. the second one is at 310, want 225")
    assert [line.partition(":")[0] for line in fire.at(6).lines()] == ["Cooker 1", "Cooker 2"]


def test_what_is_over_when_the_talk_is_taken_up_again_is_said(conversation):
    before = Fire(conversation).at(0, "the dome is at 350, want 250").at(1, "done")
    assert Fire(before.talk.conversation).at(30).lines() == [OVER]


def test_the_next_step_is_not_said_where_it_is_to_read_what_was_just_asked_for(fire):
    fire.at(0, "lit it 20 minutes ago, want 250, dome says 310 and climbing, top half, bottom half open").at(1, "done")
    line, = fire.at(30).lines()
    assert line.endswith("are up. Tell me what the dome reads.")


def test_nothing_is_said_of_cookers_without_a_timer():
    assert Timers(5).due((), 0) == []


# -- the bar below the prompt ---------------------------------------------------------------------------------------

def test_the_bar_tells_the_time_left_the_step_and_the_next(shut):
    assert shut.at(2.5).bar() == "3:30 hands off - then burp the lid"
    assert shut.at(6).bar() == "time is up - then burp the lid"


def test_the_bar_before_anything_was_told(fire):
    assert fire.bar() == "no timer runs"


def test_busy_hands_see_what_they_have_to_do(fire):
    assert fire.at(0, "the dome is at 350, want 250").bar() == (
        "5:00 both vents shut - then burp the lid")


def test_at_40_columns_the_step_in_hand_stays_and_the_next_goes(fire):
    fire.at(0, "the dome is at 350, want 250")
    assert fire.bar(40) == "5:00 both vents shut - then burp the lid"
    assert fire.bar(30) == "5:00 both vents shut"
    assert fire.bar(14) == "5:00 both v..."


def test_all_timers_run_and_the_cooker_in_hand_stands_first(fire):
    fire.at(0, "number one is at 350, want 250. the second one is at 310, want 225").at(3, "the second one is at 320")
    assert fire.bar() == "2 5:00 both vents shut - then burp the lid  [1 2:00]"
    assert fire.bar(40) == "2 5:00 both vents shut  [1 2:00]"
    assert fire.at(6).bar(40).endswith("[1 time is up]")


def test_at_40_columns_the_other_timers_are_said_shorter_before_the_step_is_cut(fire):
    fire.at(0, "number one is at 350, want 250. the second one is at 310, want 225").at(6, "the second one is at 320")
    assert fire.bar(46) == "2 5:00 both vents shut  [1 time is up]"
    assert fire.bar(32) == "2 5:00 both vents shut  [1 0:00]"
    assert fire.bar(26) == "2 5:00 both v...  [1 0:00]"


@given(width=st.integers(20, 120))
def test_the_bar_is_never_wider_than_the_screen(width):
    assert len(WIDE_FIRE.bar(width)) <= width


@pytest.fixture(scope="module", autouse=True)
def wide_fire(rulebook):
    from advisor.conversation import Conversation

    global WIDE_FIRE
    WIDE_FIRE = Fire(Conversation(rulebook)).at(0, "the left one is at 350, want 250. the right one is at 310, want 225")


def test_a_danger_that_lasts_is_named_in_words(fire):
    assert "DANGER" in fire.at(0, "grease fire! flames out of the top").bar()


@pytest.mark.parametrize(("minutes", "says"), [(0, "0:00"), (-3, "0:00"), (0.01, "0:01"), (1, "1:00"), (4.25, "4:15"),
                                               (59.99, "1:00:00"), (75.5, "1:15:30")])
def test_a_countdown(minutes, says):
    assert countdown(minutes) == says


# -- the board ------------------------------------------------------------------------------------------------------

def board(fire, monkeypatch, columns):
    from advisor.terminal import commands

    monkeypatch.setattr(commands, "columns", lambda: columns)
    return commands.answer(fire.talk, "/board").splitlines()


@pytest.fixture
def two(fire):
    fire.at(0, "number one is at 350, want 250. the second one is at 310, want 225")
    return fire.at(3, "the second one is at 320")


def test_the_board_on_a_wide_screen(two, monkeypatch):
    assert board(two, monkeypatch, 100) == [
        "cooker     dome   want      way  left  in hand",
        "1        350 °F 250 °F        -  2:00  both vents shut",
        "2*       320 °F 225 °F   rising  5:00  both vents shut"]


def test_the_board_on_40_columns(two, monkeypatch):
    lines = board(two, monkeypatch, 40)
    assert max(map(len, lines)) <= 40
    assert lines[3:] == ["2*       320 °F 225 °F   rising  5:00", "  both vents shut"]


def test_the_board_as_sentences(conversation):
    fire = Fire(conversation, screen_reader=True).at(0, "number one is at 350, want 250. the second one is at 310, want 225")
    from advisor.terminal import commands

    assert commands.answer(fire.talk, "/board").splitlines() == [
        "Cooker 1: dome 350 °F, target 250 °F. Both vents shut. 5 minutes left.",
        "Cooker 2: dome 310 °F, target 225 °F. Say its name, and I tell you what to do. 5 minutes left."]


def test_a_cooker_told_beside_a_more_urgent_one_is_not_forgotten(fire):
    fire.clock.set(0)
    text = fire.talk.say("number one is at 350, want 250. the second one is at 310, want 225").text
    assert "Cooker 2 needs you too: say its name, and I tell you what to do there." in text
    assert "needs you too" not in fire.talk.say("number one is at 345").text


def test_the_board_knows_a_distance_where_no_reading_was_told(fire, monkeypatch):
    assert "+100 °F" in board(fire.at(0, "im 100 over"), monkeypatch, 80)[1]


def test_where_the_table_does_not_fit_the_board_is_sentences(two, monkeypatch):
    assert board(two, monkeypatch, 30)[0].startswith("Cooker 1: dome 350 °F, target 250 °F.")


def test_the_board_calls_a_cooker_without_a_name_as_the_prompt_does(fire, monkeypatch):
    assert board(fire.at(0, "im 100 over"), monkeypatch, 80)[1].startswith("fire* ")


def test_the_board_names_a_danger(fire, monkeypatch):
    assert "DANGER - " in board(fire.at(0, "grease fire! flames out of the top"), monkeypatch, 40)[2]


# -- the clock for practice -----------------------------------------------------------------------------------------

def test_the_clock_for_practice_is_the_real_one_unless_it_is_set(monkeypatch):
    real = SetClock(100)
    monkeypatch.delenv(practiceclock.RATE, raising=False)
    assert practiceclock.paced(real) is real
    monkeypatch.setenv(practiceclock.RATE, "60")
    quick = practiceclock.paced(real)
    real.set(102)
    assert quick.minutes() == 220
    monkeypatch.setenv(practiceclock.RATE, "10@90")
    assert practiceclock.paced(real).minutes() == 210


@pytest.mark.parametrize("said", ["fast", "0", "nan", "60@soon", "-3", "inf"])
def test_a_rate_that_is_none_is_refused(monkeypatch, said):
    monkeypatch.setenv(practiceclock.RATE, said)
    with pytest.raises(CommandRefused, match=practiceclock.RATE):
        practiceclock.paced(SetClock())


