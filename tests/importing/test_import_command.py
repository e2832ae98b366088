"""`drafthand import` as a process of its own, and at a terminal."""

import subprocess
import sys

import pytest

FILE = "Zeit;Garraum;Kern\n" + "".join(f"24.11.2026 18:{m:02};{120 + m % 3},5;{20 + m}\n" for m in range(30))


@pytest.fixture
def call(tmp_path):
    def run(text, *words):
        path = tmp_path / "cook.csv"
        path.write_text(text)
        done = subprocess.run([sys.executable, "-m", "advisor", "import", str(path), "--data", str(tmp_path / "book"), *words],
                              capture_output=True, text=True, timeout=60, check=False, stdin=subprocess.DEVNULL)
        return done.returncode, " ".join(done.stdout.split()), done.stderr

    return run


def test_it_says_what_it_took_for_what_and_keeps_it(call):
    status, said, wrong = call(FILE, "--zone", "Europe/Berlin")
    assert (status, wrong) == (0, "")
    assert 'dome: "Garraum", °C' in said and 'meat: "Kern", °C' in said and "in Europe/Berlin" in said
    assert "Cook 1, 24 Nov 2026 18:00, 29 min: a new cook; 60 readings, all new." in said
    assert "60 readings, nothing new" in call(FILE, "--zone", "Europe/Berlin")[1]


def test_the_target_that_a_file_does_not_hold_can_be_told_now_or_later(call, drafthand_said):
    assert call(FILE, "--zone", "UTC")[0] == 0
    assert "°F" not in drafthand_said("cooks")
    assert call(FILE, "--zone", "UTC", "--target", "121C")[0] == 0
    assert "250 °F" in drafthand_said("cooks")
    assert call(FILE, "--target", "hot")[0] == 2


def test_celsius_comes_out_without_a_tail_of_digits(call, drafthand_said):
    call("Zeit;Garraum\n24.11.2026 18:00;6,1\n24.11.2026 18:01;6,2\n", "--zone", "UTC", "--units", "C")
    assert "dome,42.98,F" in drafthand_said("export")
    assert drafthand_said("export") == drafthand_said("export", "1") == drafthand_said("export", "--cook", "1")


def test_wrong_rows_are_told_with_their_line_and_the_rest_is_kept(call):
    status, said, _ = call(FILE + "24.11.2026 18:30;hot;60\n", "--zone", "UTC")
    assert status == 0 and "line 32: Garraum: 'hot' is no number" in said and "61 readings" in said


@pytest.mark.parametrize(("text", "option"), [
    ("Time,Pit\n04/05/2026 18:30,250\n", "--times day-first"), ("Time,Pit\n18:30,250\n", "--start"),
    ("Time,Pit\n2026-11-24 18:30,165\n", "--units F")])
def test_what_is_open_is_refused_with_the_option_that_settles_it(call, text, option):
    status, said, wrong = call(text)
    assert (status, said) == (1, "") and option in wrong


def test_options_settle_it(call):
    assert call("Time,Pit\n18:30,165\n", "--units", "C", "--start", "2026-11-24", "--zone", "UTC")[0] == 0


def test_a_missing_file_is_one_sentence(drafthand_error):
    assert "cannot be read" in drafthand_error("import", "/nowhere/cook.csv")


@pytest.fixture
def drafthand_said(tmp_path):
    """What a command says of the logbook that `call` keeps in."""
    def run(*words):
        return subprocess.run([sys.executable, "-m", "advisor", *words, "--data", str(tmp_path / "book")], capture_output=True,
                              text=True, timeout=60, check=True).stdout

    return run


@pytest.fixture
def drafthand_error():
    def run(*words):
        done = subprocess.run([sys.executable, "-m", "advisor", *words], capture_output=True, text=True, timeout=60, check=False)
        assert done.returncode == 1 and done.stderr.count("\n") == 1
        return done.stderr

    return run
