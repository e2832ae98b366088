"""What happens when the logbook takes nothing: full, read-only, held by another. The talk goes on and says so."""

import sqlite3
import threading

import pytest
import sqlalchemy as sa
from logbooks import postgresql_place

from advisor.clock import SetClock
from advisor.conversation import Conversation
from advisor.errors import LogbookError, LogbookUnwritable
from advisor.logbook import connecting
from advisor.logbook.connecting import FILE
from advisor.logbook.opening import open_logbook
from advisor.session import Session


@pytest.fixture
def book(tmp_path):
    made = open_logbook(tmp_path)
    yield made
    made.close()


@pytest.fixture
def session(book, rulebook):
    return Session(Conversation(rulebook), book, SetClock(29e6))


def pragma(book, words):
    """Say it on every connection from now on, those that are open included."""
    engine = book._database._engine
    sa.event.listen(engine, "checkout", lambda raw, *_: raw.execute(f"PRAGMA {words}"))


def fill(book):
    pragma(book, "max_page_count = 1")


def empty(book):
    pragma(book, "max_page_count = 1000000")


FAULTS = {"the disk is full": (lambda book: fill(book), lambda book: empty(book)),
          "it may only be read": (lambda book: pragma(book, "query_only = 1"), lambda book: pragma(book, "query_only = 0"))}


@pytest.mark.parametrize("fault", FAULTS)
def test_a_talk_goes_on_says_so_once_and_keeps_all_of_it_later(session, book, fault):
    breaks, mends = FAULTS[fault]
    session.say("dome 350, want 250", at_min=0)
    breaks(book)
    reply = session.say("dome 340 and a very long word " + "x" * 9000, at_min=1)
    assert reply.situation["dome_f"] == 340
    assert reply.text.startswith("Not kept for now: the logbook in ") and fault in reply.text
    assert session.reading({"dome_f": 330}, at_min=2).text.find("ept") == -1
    with pytest.raises(LogbookUnwritable, match=fault):
        session.note("x" * 9000)
    with pytest.raises(LogbookUnwritable, match=fault):
        session.finish("x" * 9000)
    cook, = book.cooks()
    assert [row.value_f for row in book.readings(cook.id)] == [350]
    mends(book)
    assert session.say("dome 320", at_min=3).text.startswith("Kept again, with all that was said meanwhile.")
    assert [row.value_f for row in book.readings(cook.id)] == [350, 340, 330, 320]
    assert [row.at_ms - cook.started_ms for row in book.readings(cook.id)] == [0, 60_000, 120_000, 180_000]
    assert Session(Conversation(session.conversation.rulebook), book, SetClock(29e6)).conversation.state() == \
        session.conversation.state()


def test_what_another_went_on_with_counts(session, book, rulebook):
    session.say("dome 350, want 250")
    fill(book)
    session.say("dome 340 and a very long word " + "x" * 9000)
    empty(book)
    Session(Conversation(rulebook), book, SetClock(29e6)).say("dome 300")
    reply = session.say("thanks")
    assert reply.text.startswith("Somebody else went on with this talk meanwhile") and reply.situation["dome_f"] == 300


def test_one_who_holds_it_for_long_is_waited_for(session, tmp_path):
    session.say("dome 350, want 250")
    other = sqlite3.connect(tmp_path / FILE, isolation_level=None, check_same_thread=False)
    other.execute("BEGIN IMMEDIATE")
    threading.Timer(0.7, lambda: other.execute("COMMIT")).start()
    assert "ept" not in session.say("dome 340").text
    other.close()


def test_one_who_never_lets_go_is_named_in_the_end(session, tmp_path, monkeypatch):
    session.say("dome 350, want 250")
    other = sqlite3.connect(tmp_path / FILE, isolation_level=None)
    other.execute("BEGIN IMMEDIATE")
    monkeypatch.setattr(connecting, "TRIES", 2)
    pragma(session.logbook, "busy_timeout = 10")
    reply = session.say("dome 340")
    assert "takes nothing (another program has held it for too long); end the other program" in reply.text
    other.execute("ROLLBACK")
    other.close()


def test_a_file_taken_away_meanwhile_does_not_end_the_talk(session, book, tmp_path):
    session.say("dome 350, want 250")
    book.close()
    for file in tmp_path.iterdir():
        file.unlink()
    (tmp_path / FILE).write_bytes(b"something else " * 1000)
    assert session.say("dome 340").situation["dome_f"] == 340
    with pytest.raises(LogbookError):
        session.finish()


def test_what_is_kept_outlasts_a_power_cut_as_far_as_sqlite_can_see_to_it(book):
    with book._database.writing() as connection:
        found = [connection.exec_driver_sql(f"PRAGMA {name}").scalar() for name in ("journal_mode", "synchronous",
                                                                                    "foreign_keys")]
    assert found == ["wal", 2, 1]


def test_a_server_that_lost_the_connection_is_called_again(rulebook):
    with postgresql_place() as place:
        book = open_logbook(place)
        session = Session(Conversation(rulebook), book, SetClock(29e6))
        session.say("dome 350, want 250")
        other = sa.create_engine(sa.make_url(place))
        with other.begin() as connection:
            connection.exec_driver_sql("SELECT pg_terminate_backend(pid) FROM pg_stat_activity WHERE pid <> "
                                       "pg_backend_pid() AND datname = current_database()")
        assert "ept" not in session.say("dome 340", at_min=1).text
        assert [row.value_f for row in book.readings(1)] == [350, 340]
        other.dispose()
        book.close()


def test_a_wireless_network_that_drops_out_is_noticed_within_seconds():
    """Tried out with a network that swallows everything (ip netns, a link taken down): 5 s instead of a quarter of an hour."""
    with postgresql_place() as place:
        book = open_logbook(place)
        with book._database.reading() as connection:
            asked = connection.connection.driver_connection.info.get_parameters()
        book.close()
    assert int(asked["tcp_user_timeout"]) <= 10_000
    assert int(asked["keepalives_idle"]) + int(asked["keepalives_interval"]) * int(asked["keepalives_count"]) <= 10


def test_a_server_whose_lock_another_holds_is_not_waited_for_forever(rulebook, monkeypatch):
    monkeypatch.setattr(connecting, "BUSY_MS", 20)
    with postgresql_place() as place:
        book, other = open_logbook(place), open_logbook(place)
        session = Session(Conversation(rulebook), book, SetClock(29e6))
        with other.writing():
            assert "another program has held it for too long" in session.say("dome 350, want 250").text
        assert session.say("dome 340").text.startswith("Kept again")
        book.close()
        other.close()
