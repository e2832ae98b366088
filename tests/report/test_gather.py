"""A cook talked through and kept comes back as a story; figures of a thermometer's file do so without any talk."""

from datetime import UTC

import pytest

from advisor.clock import SetClock
from advisor.conversation import Conversation
from advisor.logbook import records
from advisor.logbook.opening import open_logbook
from advisor.report.figures import figures_of
from advisor.report.gather import NoSuchCook, _fuel, _lids, _Minutes, last_finished, spoken_units, story_of
from advisor.report.story import LidUp
from advisor.session import Session
from advisor.units import UnitStyle

START = 29_000_000.0  # minutes since 1970


@pytest.fixture
def logbook(tmp_path):
    book = open_logbook(tmp_path)
    yield book
    book.close()


@pytest.fixture
def talked(rulebook, logbook):
    """A cook of two hours in words, with one thing done that was advised."""
    clock = SetClock(START)
    session = Session(Conversation(rulebook), logbook, clock)

    def at(minute, words):
        clock.set(START + minute)
        return session.say(words)

    at(0, "dome 350, want 250, bottom half open, top half open, pork shoulder is on, basket is three quarters full")
    at(2, "done")
    at(30, "now 280")
    at(60, "dome 255, core 150")
    at(70, "opened the lid")
    at(90, "dome 248, basket is half full")
    clock.set(START + 95)
    session.note("smells clean")
    clock.set(START + 120)
    session.finish("tender")
    return logbook


def gathered(logbook):
    with logbook.reading() as book:
        cook = last_finished(book)
        return story_of(book, cook, UTC), spoken_units(book, cook)


def test_what_was_told_is_in_the_story(talked):
    story, units = gathered(talked)
    assert (story.length_min, story.target_f, story.outcome, story.number) == (120, 250, "tender", 1)
    assert story.dome == ((0, 350), (30, 280), (60, 255), (90, 248)) and story.meat == ((60, 150),)
    assert [(move.vent, move.opening, move.was) for move in story.moves if move.at_min == 0] == [
        ("bottom", 0.5, None), ("top", 0.5, None)]
    assert {(move.vent, move.was) for move in story.moves if move.at_min == 2} == {("bottom", 0.5), ("top", 0.5)}
    assert [lid.at_min for lid in story.lids if not lid.burp] == [70]
    assert [note.words for note in story.notes] == ["smells clean"]
    assert story.advice and story.advice[0].steps and story.deeds
    assert (story.fuel.level_first, story.fuel.level_last) == (0.75, 0.5)
    assert units == UnitStyle()


def test_its_figures_follow(talked):
    found = figures_of(gathered(talked)[0])
    assert found["over_f"] == 100 and found["fuel_share"] == 0.25 and found["core_highest_f"] == 150


def test_celsius_told_is_celsius_reported(rulebook, logbook):
    clock = SetClock(START)
    session = Session(Conversation(rulebook), logbook, clock)
    session.say("dome 180 C, want 120 C")
    clock.set(START + 30)
    session.finish()
    assert gathered(logbook)[1].temperature == "C"


def test_a_logger_without_a_dome_probe_is_told_by_its_grate(logbook):
    cook = logbook.begin_cook("big", 0, 250.0)
    logbook.add_readings(cook, [(60_000 * n, "grate", 250.0) for n in range(10)], "imported")
    logbook.end_cook(cook, 600_000)
    story, units = gathered(logbook)
    assert (story.measured_at, len(story.dome), story.cooker, units) == ("grate", 10, "big", None)


def test_a_cook_that_goes_on_ends_with_the_last_word(logbook):
    cook = logbook.begin_cook("", 0)
    logbook.add_readings(cook, [(60_000 * n, "dome", 250.0) for n in range(10)], "imported")
    with logbook.reading() as book:
        with pytest.raises(NoSuchCook, match="no finished cook"):
            last_finished(book)
        story = story_of(book, book.cook(cook), UTC)
        assert story.length_min == 9 and not story.finished


def test_liftings_come_from_lids_burps_and_words():
    burp = records.Deed(100_000, "burp_lid", "Burp it.")

    def lids(lids, deeds, told):
        return list(_lids(lids, deeds, told, _Minutes(0)))

    assert lids([99_000, 900_000], [burp], []) == [LidUp(1.65, True), LidUp(15.0)]
    assert lids([], [burp], []) == [LidUp(100 / 60, True)]
    told = [(60_000, "lid_open", True), (240_000, "lid_open", False), (900_000, "lid_open", True)]
    assert lids([66_000], [], told) == [LidUp(1.0, lasted_min=3.0), LidUp(15.0)]
    assert lids([60_000], [], []) == [LidUp(1.0)]


def test_a_level_that_rose_tells_of_fuel_added():
    assert _fuel([(0, "fuel_level", 0.5), (1, "fuel_level", 1.0), (2, "fuel_level", 0.4)]).level_first is None
    assert _fuel([(0, "charcoal_kg", 4.0), (1, "fuel_level", 1.0), (2, "fuel_level", 0.4)]).put_in_kg == 4.0
