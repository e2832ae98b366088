"""Imported readings in the logbook: cooks parted at gaps, nothing twice, nothing lost when it is cut short."""

import os
import signal
import subprocess
import sys

import pytest

from advisor.importing.gathering import Gathered, Readings, spans
from advisor.importing.keeping import CHUNK, keep
from advisor.importing.refusals import Wrong
from advisor.logbook.opening import open_logbook

HOUR, MINUTE = 3_600_000, 60_000
START = 1_795_000_000_000


def gathered(*stretches: tuple[float, float], probe: str = "dome") -> Gathered:
    """A reading every minute in each stretch (from hour, to hour)."""
    readings = Readings()
    for first, last in stretches:
        for at in range(round(first * 60), round(last * 60)):
            readings.at_ms.append(START + at * MINUTE)
            readings.value_f.append(250.0 + at % 5)
    return Gathered({probe: readings}, Wrong())


@pytest.fixture
def book(tmp_path):
    logbook = open_logbook(tmp_path)
    yield logbook
    logbook.close()


def test_cooks_are_parted_where_nothing_was_read_for_hours(book):
    kept = keep(gathered((0, 2), (4.5, 6), (20, 21)), book, "big one")
    assert [(cook.count, cook.new) for cook in kept] == [(210, 210), (60, 60)]
    assert [cook.cooker for cook in book.cooks()] == ["big one", "big one"]
    assert (book.cooks()[0].started_ms, book.cooks()[0].ended_ms) == (START, START + 6 * HOUR - MINUTE)


def test_the_same_again_adds_nothing(book):
    keep(gathered((0, 2), (20, 21)), book, "")
    again = keep(gathered((0, 2), (20, 21)), book, "")
    assert [cook.new for cook in again] == [0, 0] and len(book.cooks()) == 2


def test_a_file_that_has_grown_makes_its_cook_longer(book):
    keep(gathered((1, 2)), book, "")
    [cook] = keep(gathered((0, 4)), book, "")
    assert (cook.new, cook.begun) == (180, False)
    assert book.cook(cook.id).started_ms == START and book.cook(cook.id).ended_ms == START + 4 * HOUR - MINUTE


def test_two_probes_from_two_files_are_one_cook_and_two_cookers_are_two(book):
    keep(gathered((0, 2)), book, "a")
    keep(gathered((0, 2), probe="meat"), book, "a")
    keep(gathered((0, 2)), book, "b")
    assert [cook.cooker for cook in book.cooks()] == ["a", "b"]
    assert len(book.readings(book.cooks("a")[0].id)) == 240


def test_readings_join_a_cook_that_goes_on(book):
    number = book.begin_cook("", START + HOUR, 275.0)
    [cook] = keep(gathered((0, 3)), book, "")
    assert (cook.id, cook.begun, book.cook(number).target_f) == (number, False, 275.0)


def test_unsorted_and_repeated_readings_come_out_sorted_once():
    readings = Readings()
    for at, value in ((3, 1.0), (1, 2.0), (2, 3.0), (1, 4.0)):
        readings.at_ms.append(at)
        readings.value_f.append(value)
    readings.sort()
    assert (list(readings.at_ms), list(readings.value_f)) == ([1, 2, 3], [4.0, 3.0, 1.0])
    assert spans(Gathered({"dome": readings}, Wrong())) == [(1, 3)]


@pytest.mark.parametrize("sign", [signal.SIGKILL, signal.SIGINT])
def test_what_was_committed_outlasts_an_end_in_the_middle(tmp_path, sign):
    """Cut short after the first chunk, a second run completes it."""
    path, data, rows = tmp_path / "cook.csv", tmp_path / "book", 6 * CHUNK
    path.write_text("epoch,Dome °F\n" + "".join(f"{START // 1000 + at},{250 + at % 5}\n" for at in range(rows)))
    words = [sys.executable, "-m", "advisor", "import", str(path), "--data", str(data)]
    with subprocess.Popen(words, stdout=subprocess.PIPE, stderr=subprocess.PIPE, env=os.environ | {"NO_COLOR": "1"}) as run:
        wait_for_first_chunk(run)
        run.send_signal(sign)
        run.communicate()
    book = open_logbook(data)
    [cook] = book.cooks()
    before = len(book.readings(cook.id))
    assert 0 < before < rows and before % CHUNK == 0
    subprocess.run(words, capture_output=True, check=True, timeout=60)
    assert len(book.cooks()) == 1 and len(book.readings(cook.id)) == rows
    book.close()


def wait_for_first_chunk(run) -> None:
    """It tells its progress once a chunk is committed."""
    while b"keeping" not in (line := run.stderr.readline()):
        assert line, "it was through before it could be cut short"
