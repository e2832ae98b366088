"""What goes into the logbook comes out of it, on SQLite and on PostgreSQL."""

import pytest

from advisor.errors import LogbookError
from advisor.logbook import records
from advisor.logbook.opening import open_logbook


@pytest.fixture
def cook(logbook):
    return logbook.begin_cook("big", 1_000, 250.0)


def test_a_new_logbook_is_empty(logbook):
    assert logbook.cooks() == () and logbook.cookers() == ()


def test_cooks_are_given_back_oldest_first_and_by_cooker(logbook):
    later, earlier, other = (logbook.begin_cook(*given) for given in (("big", 900), ("big", 100), ("small", 500)))
    assert [cook.id for cook in logbook.cooks()] == [earlier, other, later]
    assert [cook.id for cook in logbook.cooks("big")] == [earlier, later]
    assert logbook.cook(other) == records.Cook(other, None, "small", 500, None, None, None)
    assert [cooker.name for cooker in logbook.cookers()] == ["big", "small"]


def test_a_cook_that_is_not_there_is_an_error_of_ours(logbook):
    with pytest.raises(LogbookError, match="no cook 7"):
        logbook.cook(7)


def test_readings_given_twice_are_kept_once(logbook, cook):
    rows = [(3, "dome", 300.0), (1, "dome", 280.0), (1, "meat", 40.0)]
    assert logbook.add_readings(cook, rows, "imported") == 3
    assert logbook.add_readings(cook, [*rows, (4, "dome", 310.0)], "imported") == 1
    assert [(row.at_ms, row.value_f) for row in logbook.readings(cook, "dome")] == [(1, 280), (3, 300), (4, 310)]
    assert len(logbook.readings(cook)) == 4
    assert logbook.add_readings(cook, [], "imported") == 0


def test_many_readings_go_in_at_once(logbook, cook):
    rows = [(second * 1000, "dome", 250.0 + second % 50) for second in range(43_200)]
    assert logbook.add_readings(cook, rows, "imported") == len(rows)
    assert logbook.readings(cook)[-1] == records.Reading(43_199_000, "dome", 250.0 + 43_199 % 50, "imported")


def test_moves_and_lids_given_twice_are_kept_once(logbook, cook):
    assert logbook.add_moves(cook, [(1, "top", 0.5, None), (2, "top", 0.25, 0.5)]) == 2
    assert logbook.add_moves(cook, [(2, "top", 0.25, 0.5)]) == 0
    assert logbook.moves(cook) == (records.Move(1, "top", 0.5, None), records.Move(2, "top", 0.25, 0.5))
    assert logbook.add_lids(cook, [5, 4, 5]) == 2
    assert logbook.lids(cook) == (4, 5)


def test_a_profile_is_kept_and_replaced(logbook, cook):
    logbook.keep_profile("big", {"kind": "large"})
    logbook.keep_profile("big", {"kind": "small", "learned": {"x": [1.5]}})
    assert logbook.profile("big") == {"kind": "small", "learned": {"x": [1.5]}}
    assert logbook.profile("nobody's") is None
    assert logbook.cook(cook).cooker == "big"


def test_a_cook_ends_once(logbook, cook):
    logbook.end_cook(cook, 9_000, "tender")
    logbook.end_cook(cook, 99_000, "burnt")
    assert (logbook.cook(cook).ended_ms, logbook.cook(cook).outcome) == (9_000, "tender")


def test_all_of_a_block_is_written_or_none(logbook, cook):
    with pytest.raises(ZeroDivisionError), logbook.writing() as book:
        book.add_note(cook, 1, "half")
        raise ZeroDivisionError
    assert logbook.notes(cook) == ()


def test_what_no_text_may_hold_is_left_out(logbook, cook):
    with logbook.writing() as book:
        book.add_note(cook, 1, "a\0b\ud800c é 🔥")
    assert logbook.notes(cook) == (records.Note(1, "ab?c é 🔥"),)


def test_opened_again_it_holds_what_it_held(logbook, place, cook):
    logbook.close()
    again = open_logbook(place)
    assert [kept.id for kept in again.cooks()] == [cook]
    again.close()


def test_readings_of_a_cook_that_is_not_there_are_refused(logbook):
    with pytest.raises(LogbookError):
        logbook.add_readings(99, [(1, "dome", 300.0)], "said")
