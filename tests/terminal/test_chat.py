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
from advisor.settings import Settings
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


def test_in_bright_sun_nothing_is_pale_and_nothing_hangs_on_colour(monkeypatch):
    monkeypatch.setenv("NO_COLOR", "1")
    rules = dict(colours.style_for("high").style_rules)
    assert "ansi" not in str(rules) and rules["danger"] == "bold reverse"


class Heard(DummyOutput):
    rings = 0

    def bell(self):
        self.rings += 1


@pytest.mark.parametrize(("bell", "rings"), [(True, 1), (False, 0)])
def test_a_wait_that_is_over_rings_unless_that_is_turned_off(talk, bell, rings):
    talk.settings, heard = Settings(bell=bell), Heard()
    with create_app_session(output=heard):
        prompting.Prompting(talk, output=heard)._announce("5 minutes are up.")
    assert heard.rings == rings


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


def test_without_a_terminal_a_program_can_go_on_where_it_was(drafthand, tmp_path):
    book = str(tmp_path / "book")
    assert "Look again in 5 minutes" in drafthand("--data", book, stdin=b"dome 350, want 250\ndone\n")[1]
    status, output, errors = drafthand("--data", book, stdin=b"what now\n/note windy\n/finish came out well\n/now\n")
    assert (status, errors) == (0, "")
    assert "In hand, 5 minutes left: Both vents shut" in output and "Noted down." in output
    assert "number 1 in the logbook" in output and "Tell me: What does the dome" in output


def test_without_a_folder_a_program_is_not_kept(drafthand, tmp_path):
    drafthand(stdin=b"dome 350, want 250\n", XDG_DATA_HOME=str(tmp_path))
    assert "350 °F" not in drafthand(stdin=b"what now\n", XDG_DATA_HOME=str(tmp_path))[1]
    assert not list(tmp_path.rglob("*.sqlite"))


@pytest.mark.parametrize("spoil", [lambda book: book.write_text("no folder"),
                                   lambda book: (book.mkdir(), (book / "logbook.sqlite").write_bytes(b"no database" * 99))])
def test_a_logbook_that_is_of_no_use_is_said_and_the_talk_goes_on(drafthand, tmp_path, spoil):
    spoil(tmp_path / "book")
    status, output, errors = drafthand("--data", str(tmp_path / "book"), stdin=b"dome 350, want 250\n/note windy\n")
    assert (status, errors) == (0, "")
    assert "Shut the bottom vent" in output and "kept" in output.split("Shut the bottom vent")[0]
    assert "othing of this talk is kept" in output and "--data" in output


def test_settings_reach_the_talk(drafthand, tmp_path):
    settings = tmp_path / "mine.yaml"
    settings.write_text("temperature: celsius\n")
    assert "°C" in drafthand(stdin=b"the dome reads 180, want 120\n", DRAFTHAND_SETTINGS=str(settings))[1]
    assert "°C" in drafthand("ask", "the dome reads 180, want 120", DRAFTHAND_SETTINGS=str(settings))[1]
    settings.write_text("temprature: celsius\n")
    status, _, errors = drafthand("ask", "dome 300", DRAFTHAND_SETTINGS=str(settings))
    assert status == 1 and "mine.yaml:1: there is no key 'temprature'; did you mean temperature?" in errors


def test_the_settings_are_shown_explained_and_written(drafthand, tmp_path):
    file = str(tmp_path / "folder" / "mine.yaml")
    status, output, _ = drafthand("settings", DRAFTHAND_SETTINGS=file)
    assert status == 0 and file in output and "--write" in output and "temperature: as spoken" in output
    assert drafthand("settings", "--write", DRAFTHAND_SETTINGS=file)[0] == 0
    assert "--write" not in drafthand("settings", DRAFTHAND_SETTINGS=file)[1]
    assert drafthand("settings", "--write", DRAFTHAND_SETTINGS=file)[0] == 1


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
