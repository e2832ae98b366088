"""Lines read key by key from a pretended terminal."""

import os
import pty
import signal
import termios

import pytest

from advisor.terminal import door, keys


@pytest.fixture
def terminal(monkeypatch):
    """terminal(keys) -> Typed, which finds those keys; `shown` on it: what it wrote."""
    ours, theirs = pty.openpty()
    shown = []
    monkeypatch.setattr(door, "say", lambda text, end="\n": shown.append(text + end))
    monkeypatch.setattr(door, "rub_out", lambda cells: shown.append("\b" * cells))

    def press(pressed, meanwhile=lambda: None):
        typed = keys.Typed(theirs, meanwhile)
        typed.shown = shown
        os.write(ours, pressed if isinstance(pressed, bytes) else pressed.encode())
        return typed

    with keys.Typed(theirs, lambda: None).key_by_key():
        yield press
    os.close(ours)
    os.close(theirs)


@pytest.mark.parametrize(("pressed", "line"), [
    ("dome 340\r", "dome 340"), ("dome 34\x7f\x7f50\n", "dome 50"), ("\x7f\x7fok\r", "ok"), ("dome 34 0\x17\x17310\r", "dome 310"),
    ("all wrong\x15340\r", "340"), ("up\x1b[A\x1bOBdown\r", "updown"), ("180 °C\r", "180 °C"), ("  \r", ""), ("a\x04b\r", "ab"),
    (b"bad \xff byte\r", "bad \ufffd byte"), ("tab\tand \x1b\x00\r", "taband")])
def test_a_line_with_the_few_keys_that_edit_it(terminal, pressed, line):
    assert terminal(pressed).next() == line


def test_ctrl_d_on_an_empty_line_ends_it(terminal):
    typed = terminal("one\rtwo\r\x04")
    assert [typed.next(), typed.next(), typed.next()] == ["one", "two", None]


def test_what_is_shown_is_what_was_typed(terminal):
    typed = terminal("3\u4e00\x7f\x7f5\r")
    typed.next()
    assert typed.shown == ["3", "\u4e00", "\b\b", "\b", "5", "\n"]


def test_what_is_half_typed_is_known_while_waiting_and_dropped_by_an_interrupt(terminal, monkeypatch):
    monkeypatch.setattr(keys, "LOOK_EVERY_S", 0.01)
    seen = []

    def meanwhile():
        seen.append(typed.half)
        raise KeyboardInterrupt

    typed = terminal("the dome rea", meanwhile)
    with pytest.raises(KeyboardInterrupt):
        typed.next()
    assert seen == ["the dome rea"]
    with pytest.raises(KeyboardInterrupt):
        typed.next()
    assert seen[1] == ""


def test_the_terminal_is_left_as_it_was():
    ours, theirs = pty.openpty()
    before = termios.tcgetattr(theirs)
    with keys.Typed(theirs, lambda: None).key_by_key():
        assert not termios.tcgetattr(theirs)[3] & (termios.ECHO | termios.ICANON)
        assert termios.tcgetattr(theirs)[3] & termios.ISIG
    assert termios.tcgetattr(theirs) == before
    os.close(ours)
    os.close(theirs)


def test_taken_up_again_after_ctrl_z_it_is_key_by_key_still():
    ours, theirs = pty.openpty()
    before, typed = termios.tcgetattr(theirs), keys.Typed(theirs, lambda: None)
    with typed.key_by_key():
        termios.tcsetattr(theirs, termios.TCSANOW, before)  # as the shell does meanwhile
        os.kill(os.getpid(), signal.SIGCONT)
        assert not termios.tcgetattr(theirs)[3] & termios.ICANON
        assert typed.woken
    os.close(ours)
    os.close(theirs)
