"""The chat: with line editing on a pretended terminal, and line by line without one."""

import subprocess
import sys
import time
from threading import Thread

import pytest
from prompt_toolkit.application import create_app_session
from prompt_toolkit.completion import CompleteEvent
from prompt_toolkit.document import Document
from prompt_toolkit.input import create_pipe_input
from prompt_toolkit.output import DummyOutput

from advisor.clock import SetClock
from advisor.session import Session
from advisor.terminal import colours, history, prompting
from advisor.terminal.completion import CommandCompleter
from advisor.terminal.talk import LEAVE_HINT, Talk

CTRL_C, CTRL_D, TAB, UP = "\x03", "\x04", "\t", "\x1b[A"
PAUSE_S = 0.3


def type_slowly(keyboard, keys):
    for part in keys:
        keyboard.send_text(part)
        time.sleep(PAUSE_S)


@pytest.fixture
def talk(conversation):
    return Talk(Session(conversation, None, SetClock(day_minute=16 * 60)))


@pytest.fixture
def typed(talk, tmp_path, monkeypatch):
    """typed(keys, ...) -> what the chat showed, its history kept in a folder of the test.

    Each argument is typed PAUSE_S after the one before: history and completion come in from threads of their own.
    """
    monkeypatch.setattr(history.platformdirs, "user_data_path", lambda *names, **more: tmp_path / "data")

    def run(*keys):
        shown, talk.over = [], False
        monkeypatch.setattr(prompting.Prompting, "show", lambda self, text: shown.append(text))
        with create_pipe_input() as keyboard, create_app_session(input=keyboard, output=DummyOutput()):
            hands = Thread(target=type_slowly, args=(keyboard, keys))
            hands.start()
            prompting.Prompting(talk).run()
            hands.join()
        return shown

    return run


def test_words_are_answered_and_ctrl_d_leaves(typed):
    greeting, reply = typed(f"im 100 over what now\r{CTRL_D}")
    assert "/help" in greeting
    assert "100 °F" in reply


def test_quit_leaves(typed):
    assert typed("/quit\rnever read\r")[1:] == ["Mind the ash."]


def test_ctrl_c_clears_what_is_typed_and_else_says_how_to_leave(typed):
    shown = typed(f"dome 900{CTRL_C}{CTRL_C}/quit\r")
    assert shown[1:] == [LEAVE_HINT[False], "Mind the ash."]


def test_what_was_typed_comes_back_in_this_chat_and_the_next(typed):
    assert "Besides that" in typed("/help\r", UP, f"\r{CTRL_D}")[2]
    assert "Besides that" in typed("", UP, f"\r{CTRL_D}")[1]


def test_tab_completes_a_command(typed):
    assert "Besides that" in typed("/he", TAB, f"\r{CTRL_D}")[1]


def test_a_history_that_cannot_be_kept_is_no_matter(typed, tmp_path):
    (tmp_path / "data").write_text("a file where the folder should be")
    assert len(typed(f"/help\r/now\r{CTRL_D}")) == 3


def test_a_fault_in_one_answer_does_not_end_the_chat(typed, talk, monkeypatch):
    monkeypatch.setattr(talk, "where", lambda: 1 / 0)
    shown = typed("/now\r/quit\r")
    assert "ZeroDivisionError" in shown[1] and shown[2] == "Mind the ash."


def offers(talk, text):
    return [offer.text for offer in CommandCompleter(talk).get_completions(Document(text), CompleteEvent())]


def test_completion_offers_commands_then_what_fits_behind_them(talk):
    assert offers(talk, "/wh") == ["/why", "/why-not", "/what-if"]
    assert offers(talk, "why") == []
    assert "burp the lid" in offers(talk, "/why-not b")
    assert "burp the lid" in offers(talk, "/wn bu")
    assert offers(talk, "/nothing x") == []
    talk.switch("left")
    assert offers(talk, "/cooker ") == ["left"]


def styles(talk, text):
    return {style for style, line in prompting.Prompting(talk, output=DummyOutput()).painted(text) if line.strip()}


@pytest.mark.parametrize(("environment", "colour"), [({}, True), ({"NO_COLOR": "1"}, False), ({"TERM": "dumb"}, False),
                                                     ({"NO_COLOR": ""}, True)])
def test_colour_can_be_turned_off(talk, monkeypatch, environment, colour):
    monkeypatch.delenv("NO_COLOR", raising=False)
    monkeypatch.setenv("TERM", "xterm-256color")
    for name, value in environment.items():
        monkeypatch.setenv(name, value)
    assert colours.colour_wanted() is colour
    with create_app_session(output=DummyOutput()):
        assert prompting.Prompting(talk)._style is (colours.COLOURS if colour else colours.PLAIN)


def test_dangers_steps_and_questions_are_painted(talk):
    text = "1. Shut it.\n   DANGER: fire\nTake care: hot\nTell me: what now?"
    with create_app_session(output=DummyOutput()):
        assert styles(talk, text) == {"class:step", "class:danger", "class:care", "class:question"}


def test_control_characters_never_reach_the_screen(talk):
    with create_app_session(output=DummyOutput()):
        painted = prompting.Prompting(talk).painted("a\x1b[2Jb\x07c\x9bd")
    assert "".join(line for _, line in painted) == "a[2Jbcd\n"


# -- without a terminal ---------------------------------------------------------------------------------------------

def test_without_a_terminal_lines_are_answered(drafthand):
    status, output, errors = drafthand(stdin=b"im 100 over what now\nwhy not burp\n/steps\n/nope\n/quit\nnever read\n")
    assert (status, errors) == (0, "")
    assert "100 °F" in output and "There is no command /nope" in output
    assert output.endswith("Mind the ash.\n\n")
    assert "\x1b" not in output


def test_without_a_terminal_the_end_of_input_ends_it(drafthand):
    assert drafthand(stdin=b"hello")[0] == 0
    assert drafthand(stdin=b"") == (0, "", "")


def test_without_a_terminal_hostile_lines_are_answered(drafthand):
    hostile = [b"\xff\xfe\x00", b"", b"a" * 10_000, b"\x1b[2J", "🔥".encode(), b"/why-not " + b"z" * 5000, b"dome 5000"]
    status, output, errors = drafthand(stdin=b"\n".join(hostile) + b"\nim 100 over\n")
    assert (status, errors) == (0, "")
    assert "100 °F" in output and "\x1b" not in output and "Traceback" not in output


def test_columns_wrap_what_is_piped(drafthand):
    _, output, _ = drafthand(stdin=b"im 100 over what now\n", COLUMNS="40")
    assert max(map(len, output.splitlines())) <= 40
    assert "!! DANGER" in output


def test_a_closed_input_is_one_sentence(drafthand):
    for command in ("", "pipe"):
        done = subprocess.run(f'"{sys.executable}" -m advisor {command} <&-', shell=True, capture_output=True, text=True,
                              check=False)
        assert done.returncode != 0 and done.stdout == ""
        assert done.stderr.startswith("drafthand: standard input is closed") and done.stderr.count("\n") == 1
