"""Slips of greasy thumbs: the short answers are mended, everything else stays as it was typed."""

import pytest

from advisor.terminal.thumbs import mended


@pytest.mark.parametrize(("typed", "meant"), [
    ("doen", "done"), ("Dnoe", "done"), ("cnat", "cant"), ("waht now", "what now"), ("hwy", "why"), ("udno", "undo"),
    ("31o", "310"), ("3l0", "310"), ("its 25o now", "its 250 now"),
])
def test_a_slip_is_mended(typed, meant):
    assert mended(typed) == meant


@pytest.mark.parametrize("typed", ["done", "dome", "gone", "down", "won", "own", "node", "310", "10l", "1o", "l", "", "  ",
                                   "the doen thing stands in a long sentence", "no", "/doen", "2o1O lbs"])
def test_anything_else_stays(typed):
    assert mended(typed) == typed
