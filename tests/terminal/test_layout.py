"""Laying out: whole words at any width, steps that hang, dangers that stand out without colour."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from advisor.terminal.layout import columns, laid_out, lines, openings

KNOWN = {"danger": "DANGER:", "care": "Take care:", "question": "Tell me:"}
REPLY = """It is far too hot.

1. Shut the bottom vent all the way, and leave it so until I say that it may move again.
   DANGER: Crack the lid first. Gloves on, stand to the side, lift it an inch, count to ten.
2. Burp it.

Take care: ceramic burns skin.

Tell me: is it still rising?"""


def test_without_a_width_the_text_stays_as_it_is():
    assert laid_out(REPLY, None, KNOWN) == REPLY


@pytest.mark.parametrize("width", [20, 40, 80, 200])
def test_no_line_is_wider_and_no_word_is_broken(width):
    out = laid_out(REPLY, width, KNOWN)
    assert max(map(len, out.splitlines())) <= width
    assert out.replace("!! ", "").split() == REPLY.split()


def test_every_line_of_a_danger_is_marked():
    marked = [line for line in laid_out(REPLY, 40, KNOWN).splitlines() if line.startswith("!! ")]
    assert marked[0].startswith("!! DANGER:") and marked[-1].endswith("count to ten.") and len(marked) >= 3


def test_the_second_line_of_a_step_hangs_under_the_first():
    out = laid_out(REPLY, 40, KNOWN).splitlines()
    step = next(n for n, line in enumerate(out) if line.startswith("1. "))
    assert out[step + 1].startswith("   ") and out[step + 1][3] != " "


def test_the_kinds_of_lines_are_told_apart():
    kinds = [kind for kind, line in lines(REPLY, 40, KNOWN) if line]
    assert kinds == ["plain", "step", "danger", "step", "care", "question"]


def test_the_openings_are_those_of_the_rule_base(rulebook):
    assert openings(rulebook.catalogue.phrases) == KNOWN


@given(text=st.text(alphabet=" ab\n", max_size=200), width=st.integers(20, 60))
def test_nothing_is_lost_at_any_width(text, width):
    assert laid_out(text, width, KNOWN).split() == text.split()


def test_a_word_wider_than_the_terminal_stays_whole():
    assert laid_out("see " + "x" * 50, 20, KNOWN) == "see\n" + "x" * 50


def test_a_row_of_a_table_hangs_under_its_last_column():
    assert laid_out("/now  /n  where all of it stands", 22, KNOWN) == "/now  /n  where all of\n" + " " * 10 + "it stands"


def test_columns_from_outside_count_without_a_terminal(monkeypatch):
    monkeypatch.setattr("advisor.terminal.layout.is_terminal", lambda stream: False)
    monkeypatch.setenv("COLUMNS", "57")
    assert columns() == 57
    monkeypatch.setenv("COLUMNS", "2")
    assert columns() == 20
    monkeypatch.delenv("COLUMNS")
    assert columns() is None
