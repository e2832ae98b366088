"""`drafthand report`: the last finished cook in lines, page and picture; every failure is one sentence."""

import os
import subprocess
import sys

import pytest
from demo import play

from advisor.conversation import Conversation
from advisor.logbook.opening import open_logbook

LONG = 20_000


def report(folder, *words):
    surroundings = {key: value for key, value in os.environ.items() if key not in ("COLUMNS", "DRAFTHAND_DATA")} | {"TZ": "UTC"}
    done = subprocess.run([sys.executable, "-m", "advisor", "report", "--data", str(folder), *words], capture_output=True,
                          timeout=60, env=surroundings, check=False)
    return done.returncode, done.stdout.decode(), done.stderr.decode()


@pytest.fixture(scope="module")
def kept(tmp_path_factory, rulebook):
    """The cook of tests/data/cook_talk.yaml, and one that goes on."""
    folder = tmp_path_factory.mktemp("kept")
    logbook = open_logbook(folder)
    play(logbook, Conversation(rulebook))
    logbook.begin_cook("big", 1_800_000_000_000, 250.0)
    logbook.close()
    return folder


def test_a_few_lines_of_the_last_finished_cook(kept):
    status, output, errors = report(kept)
    assert (status, errors) == (0, "")
    lines = output.splitlines()
    assert lines[:3] == ["Cook 1, pork shoulder, 17 October 2026", "05:40 to 15:40",
                         "How it turned out: pulled apart like nothing, a little smoky"]
    assert "target: 120 °C" in lines and "charcoal used: 60% of a full basket, 1.5 kg - as told" in lines
    assert any(line.startswith("Next time, at 06:10: The top vent stood half open or more") for line in lines)


def test_page_and_picture(kept, tmp_path):
    status, output, errors = report(kept, "--html", str(tmp_path / "cook.html"), "--png", str(tmp_path / "cook.png"))
    assert (status, errors) == (0, "") and output.count("written to") == 2
    page = (tmp_path / "cook.html").read_text(encoding="utf-8")
    assert "rubbed &amp; salted &lt;overnight&gt;" in page and "°F" not in page
    assert (tmp_path / "cook.png").read_bytes().startswith(b"\x89PNG")


def test_a_cook_that_goes_on_only_by_its_number(kept):
    output = report(kept, "--cook", "2")[1]
    assert output.startswith("Cook 2, big, ") and ", so far\n" in output


@pytest.mark.parametrize(("words", "status", "complaint"), [
    (("--cook", "9"), 1, "no cook 9"), (("--cook", "x"), 2, "invalid int value"),
    (("--html", "/nowhere/at/all.html"), 1, "cannot be written"), (("--png", "cook.jpg"), 1, ".png"),
])
def test_what_cannot_be_done_is_one_sentence(kept, words, status, complaint):
    given, output, errors = report(kept, *words)
    assert given == status and output == "" and complaint in errors and errors.count("\n") == 1


def test_an_empty_logbook_says_what_to_do(tmp_path):
    status, _, errors = report(tmp_path)
    assert status == 1 and "no finished cook" in errors and "--cook NUMBER" in errors


def test_a_long_cook_says_at_a_terminal_what_it_is_doing(monkeypatch):
    from advisor.terminal import report as command

    told = []
    monkeypatch.setattr(command.door, "complain", told.append)
    monkeypatch.setattr(command.door, "is_terminal", lambda stream: True)
    command._Progress(LONG).tell("drawing")
    command._Progress(LONG - 1).tell("drawing")
    assert told == ["20,000 readings ...", "drawing ..."]
