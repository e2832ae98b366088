"""A talk that is kept: every turn is in the logbook before its reply is given, and another process goes on with it."""

import pytest

from advisor.clock import SetClock
from advisor.conversation import Conversation
from advisor.errors import ClockRefused, LogbookError, LogbookUnwritable, ValueRefused
from advisor.keeping.talk import LEFT_AFTER_H
from advisor.logbook.opening import open_logbook
from advisor.session import Session

START = 29_000_000.0  # minutes since 1970


@pytest.fixture
def clock():
    return SetClock(START)


@pytest.fixture
def opened(rulebook, place, clock):
    """A process that starts: opened() -> Session."""
    books = []

    def start():
        books.append(open_logbook(place))
        return Session(Conversation(rulebook), books[-1], clock)

    yield start
    for book in books:
        book.close()


@pytest.fixture
def session(opened):
    return opened()


def dome(session, number=0):
    book = session.logbook
    cook = book.cooks()[number].id
    return [(reading.at_ms / 60_000 - START, reading.value_f) for reading in book.readings(cook, "dome")]


def test_what_is_told_is_in_the_logbook(session, clock):
    session.say("dome 350, want 250, bottom half open")
    clock.set(START + 2)
    session.say("done")
    clock.set(START + 9)
    session.reading({"dome_f": 330, "meat_f": 150})
    cook, = session.logbook.cooks()
    assert (cook.started_ms, cook.target_f, cook.ended_ms) == (START * 60_000, 250, None)
    assert dome(session) == [(0, 350), (9, 330)]
    assert [(row.value_f, row.origin) for row in session.logbook.readings(cook.id, "meat")] == [(150, "measured")]
    moves = session.logbook.moves(cook.id)
    assert [(move.vent, move.opening, move.was) for move in moves[:2]] == [("bottom", 0.5, None), ("bottom", 0, 0.5)]
    assert [deed.act for deed in session.logbook.deeds(cook.id)] == ["set_vent", "set_vent"]
    assert session.logbook.advice(cook.id)[0].steps[0]["act"] == "set_vent"


def test_another_process_goes_on_where_this_one_ended(opened, clock):
    first = opened()
    first.say("im 100 over, want 250")
    clock.set(START + 1)
    first.say("done")
    clock.set(START + 4)
    second = opened()
    assert second.resumed and second.now() == 4
    assert second.conversation.state() == first.conversation.state()
    assert second.say("what now").text == Session.say(first, "what now").text


def test_nothing_is_resumed_where_nothing_was_said(session):
    assert not session.resumed and session.news() == [] and session.now() == 0


def test_two_processes_are_two_people_in_one_conversation(opened):
    here, there = opened(), opened()
    here.say("dome 350, want 250")
    assert there.say("why").situation["dome_f"] == 350
    there.say("dome 340")
    assert here.say("thanks").situation["dome_f"] == 340
    assert len(here.logbook.cooks()) == 1


def test_the_cooker_in_hand_is_each_ones_own(opened):
    here, there = opened(), opened()
    here.switch("left")
    there.switch("right")
    here.say("dome 350, want 250")
    there.say("dome 200, want 225")
    assert here.say("thanks").situation["dome_f"] == 350
    assert {cook.cooker: cook.target_f for cook in here.logbook.cooks()} == {"left": 250, "right": 225}


def test_what_another_till_told_is_seen_by_looking_in(opened, clock):
    here, there = opened(), opened()
    assert not here.look_in(), "nothing was said yet"
    there.say("number one is at 350, want 250. number two is at 310, want 225")
    assert here.look_in() and here.conversation.state() == there.conversation.state()
    assert not here.look_in(), "nothing new"
    clock.set(START + 2)
    there.say("number one: done")
    assert here.look_in()
    standings = [session.conversation.standings(session.now()) for session in (here, there)]
    assert standings[0] == standings[1] and any(standing.hands_off for standing in standings[0])
    assert not there.look_in(), "what one said oneself is no news"


def test_looking_in_writes_nothing_and_waits_for_nobody(opened):
    here, there = opened(), opened()
    there.say("dome 350, want 250")
    with there.logbook.writing() as book:
        assert here.look_in() and here.conversation.current.situation.facts["dome_f"].value == 350
        before = book.open_talk()
    assert there.logbook.cooks() == here.logbook.cooks()
    with there.logbook.reading() as book:
        assert book.open_talk() == before


def test_looking_in_leaves_the_cooker_in_hand_and_follows_a_reset(opened):
    here, there = opened(), opened()
    here.switch("left")
    there.switch("right")
    there.say("dome 200, want 225")
    assert here.look_in() and here.conversation.current.name == "left"
    there.reset()
    assert here.look_in() and here.conversation.standings(here.now()) == ()
    here.say("dome 300")
    assert there.look_in() and there.conversation.current.situation.facts["dome_f"].value == 300


def test_looking_in_without_a_logbook_or_where_it_cannot_be_read_is_no_fault(opened, rulebook, clock, monkeypatch):
    assert not Session(Conversation(rulebook), None, clock).look_in()
    here, there = opened(), opened()
    there.say("dome 350, want 250")
    with monkeypatch.context() as broken:
        broken.setattr(here.logbook, "reading", gone)
        assert not here.look_in()
    assert here.news() == [] and here.look_in()


def gone():
    raise LogbookUnwritable("the logbook takes nothing", "", "see to the database")


@pytest.mark.parametrize(("took_s", "tries"), [(5.0, 2), (0.1, 3)])
def test_a_logbook_that_let_one_wait_is_not_asked_again_at_once(session, monkeypatch, took_s, tries):
    """Who tells of flames gets the answer at once, though the server is out of reach."""
    now_s, tried, works = [0.0], [], session.logbook.writing
    monkeypatch.setattr("advisor.session.seconds", lambda: now_s[0])

    def slow():
        tried.append(now_s[0])
        now_s[0] += took_s
        raise LogbookUnwritable("the logbook takes nothing", "", "see to the database")

    with monkeypatch.context() as broken:
        broken.setattr(session.logbook, "writing", slow)
        for words in ("dome 350, want 250", "flames out of the top"):
            assert session.say(words).steps
            now_s[0] += 5
        now_s[0] += 30
        session.say("now 340")
    assert len(tried) == tries
    now_s[0] += 40
    assert session.say("now 335").text.startswith("Kept again") and session.logbook.writing == works
    assert len(dome(session)) == 1, "all at one minute: the newest counts"


def test_who_looked_in_and_had_to_wait_has_waited_for_the_turn_as_well(session, monkeypatch):
    session.say("dome 350, want 250")
    now_s, tried = [0.0], []
    monkeypatch.setattr("advisor.session.seconds", lambda: now_s[0])

    def slow():
        tried.append(now_s[0])
        now_s[0] += 10
        raise LogbookUnwritable("the logbook takes nothing", "", "see to the database")

    for way in ("reading", "writing"):
        monkeypatch.setattr(session.logbook, way, slow)
    assert not session.is_behind and not session.look_in()
    assert session.say("flames out of the top").text.startswith("Not kept for now") and len(tried) == 1


def test_a_turn_not_kept_yet_is_not_forgotten_by_looking_in(opened, monkeypatch):
    here, there = opened(), opened()
    here.say("dome 350, want 250")
    with monkeypatch.context() as broken:
        broken.setattr(here.logbook, "writing", gone)
        here.say("now 340")
    there.say("bottom half open")
    assert not here.look_in() and here.conversation.current.situation.facts["dome_f"].value == 340
    assert "Somebody else went on" in here.say("thanks").text


def test_a_refused_turn_leaves_no_trace(session):
    session.say("dome 350, want 250")
    before = session.conversation.state()
    with pytest.raises(ValueRefused):
        session.reading({"dome_f": 99_999})
    with session.logbook.reading() as book:
        assert len(book.turns(book.open_talk().id)) == 1
    assert session.conversation.state() == before


def test_a_fault_while_entering_leaves_no_trace_either(session, monkeypatch):
    session.say("dome 350, want 250")
    before = session.conversation.state()
    with monkeypatch.context() as broken:
        broken.setattr("advisor.keeping.talk.enter", lambda *given: 1 / 0)
        with pytest.raises(ZeroDivisionError):
            session.say("dome 400")
    assert session.conversation.state() == before
    session.say("dome 340", at_min=5)
    assert dome(session) == [(0, 350), (5, 340)]


def test_a_slip_of_the_tongue_is_not_kept(session, clock):
    session.say("dome 310, want 250, meat at 130")
    clock.set(START + 0.5)
    session.say("no i meant 300")
    assert dome(session) == [(0.5, 300)]


def test_what_is_taken_back_is_not_kept(session, clock):
    session.say("dome 310, want 250")
    clock.set(START + 5)
    session.say("now 330, i opened the top vent to half, the meat is at 140")
    session.say("done")
    clock.set(START + 6)
    session.say("undo")
    session.say("undo")
    cook, = session.logbook.cooks()
    assert dome(session) == [(0, 310)]
    assert session.logbook.readings(cook.id, "meat") == session.logbook.moves(cook.id) == ()
    assert session.logbook.deeds(cook.id) == ()


def test_distances_become_readings_once_the_target_is_told(session, clock):
    session.say("im 100 over")
    assert dome(session) == []
    clock.set(START + 5)
    session.say("want 250")
    assert dome(session) == [(0, 350)]


def test_inches_are_kept_as_openings(session):
    session.say("top vent an inch open, dome 300")
    move, = session.logbook.moves(session.cook_id)
    assert (move.vent, move.opening) == ("top", pytest.approx(1 / 3))


def test_a_lid_opened_is_kept(session):
    session.say("dome 300, want 250")
    session.say("i opened the lid 5 minutes ago", at_min=12)
    assert session.logbook.lids(session.cook_id) == (round((START + 7) * 60_000),)


def test_a_cook_keeps_its_readings_when_its_cooker_gets_a_name(session):
    session.say("dome 300, want 250")
    session.say("number two is at 180, want 225", at_min=1)
    session.say("number one is at 290", at_min=2)
    cooks = {cook.cooker: cook.id for cook in session.logbook.cooks()}
    assert set(cooks) == {"1", "2"}
    assert [row.value_f for row in session.logbook.readings(cooks["1"], "dome")] == [300, 290]


def test_last_weeks_number_one_is_todays(opened):
    opened().say("number one is at 300, want 250")
    session = opened()
    session.reset()
    session.say("the first is at 310, want 250")
    assert [cooker.name for cooker in session.logbook.cookers()] == ["1"]


def test_finished_a_cook_is_over_and_the_next_is_another(session, clock):
    session.say("dome 350, want 250")
    clock.set(START + 60)
    done = session.finish("tender")
    assert (done.outcome, done.ended_ms) == ("tender", (START + 60) * 60_000)
    assert session.finish() is None
    assert session.say("dome 200").situation == {"dome_f": 200}
    assert [cook.ended_ms is None for cook in session.logbook.cooks()] == [False, True]


def test_the_same_advice_is_kept_once_a_cook(opened):
    session = opened()
    for at_min in (0, 1, 2):
        session.say("im 100 over", at_min=at_min)
    first = session.finish()
    opened().say("im 100 over", at_min=3)
    session.say("im 100 over", at_min=4)
    second = session.logbook.cooks()[-1]
    assert first.id != second.id
    assert [len(session.logbook.advice(cook.id)) for cook in (first, second)] == [1, 1]


def test_notes_belong_to_the_cook_in_hand(session):
    session.note("damp charcoal")
    session.say("dome 200, want 250")
    session.note("now oak")
    cook, = session.logbook.cooks()
    assert [note.words for note in session.logbook.notes(cook.id)] == ["damp charcoal", "now oak"]


def test_reset_closes_the_cooks_and_begins_anew_for_everybody(opened, clock):
    here, there = opened(), opened()
    here.say("dome 350, want 250", at_min=90)
    assert here.reset().situation == {}
    assert there.say("dome 200", at_min=3).situation == {"dome_f": 200}
    old, new = here.logbook.cooks()
    assert (old.outcome, new.ended_ms, new.started_ms) == ("reset", None, (START + 3) * 60_000)


def test_a_cook_ended_by_a_reset_ends_when_the_callers_clock_says(opened):
    session = opened()
    session.say("dome 350, want 250", at_min=0)
    session.say("dome 340", at_min=90)
    session.reset(at_min=2)
    cook, = session.logbook.cooks()
    assert cook.ended_ms - cook.started_ms == 90 * 60_000


def test_of_an_empty_talk_left_long_ago_nothing_is_said(opened, clock):
    opened().say("hello")
    clock.set(START + 99 * 60)
    assert opened().news() == []


@pytest.mark.parametrize("words", ["dome 350 a\0b", "want 250 \ud800 half a character", "dome 300 " + "🔥é" * 500, "\u2028"])
def test_any_words_are_kept(session, words):
    session.say(words)
    assert session.news() == []
    session.note(words)
    session.finish(words)
    with session.logbook.reading() as book:
        assert [turn.kind for turn in book.turns(1)] == ["say", "note", "finish"]


def test_a_talk_left_long_ago_is_closed_and_a_new_one_begun(opened, clock):
    opened().say("dome 350, want 250")
    clock.set(START + LEFT_AFTER_H * 60)
    assert opened().resumed
    clock.set(START + LEFT_AFTER_H * 60 + 1)
    later = opened()
    assert not later.resumed
    reply = later.say("dome 200")
    assert reply.text.startswith("Nothing was said for 18 hours") and reply.situation == {"dome_f": 200}
    assert [(cook.outcome, cook.ended_ms) for cook in later.logbook.cooks()] == [("left", START * 60_000), (None, None)]


def test_the_callers_clock_goes_on_across_processes(opened, clock):
    opened().say("dome 350, want 250", at_min=30)
    clock.set(START + 5)
    session = opened()
    with pytest.raises(ClockRefused, match="at_min 29 lies before 30"):
        session.say("dome 340", at_min=29)
    session.say("dome 340", at_min=30.5)
    clock.set(START + 6)
    session.say("dome 335")
    assert [round(minute, 1) for minute, _ in dome(session)] == [0, 0.5, 1.5]


def test_after_a_reset_the_callers_clock_may_start_over_and_is_kept(opened):
    session = opened()
    session.say("dome 350", at_min=90)
    session.reset(at_min=5)
    with pytest.raises(ClockRefused):
        opened().say("dome 340", at_min=3)
    opened().say("dome 340", at_min=6)


def test_a_clock_set_back_by_hand_does_not_turn_the_talk_back(rulebook, place):
    first = open_logbook(place)
    Session(Conversation(rulebook), first, SetClock(START)).say("dome 350")
    session = Session(Conversation(rulebook), first, SetClock(START - 60))
    session.say("dome 340")
    assert session.now() == 0 and dome(session) == [(0, 340)]
    first.close()


def test_of_two_figures_at_one_moment_the_newer_counts(session):
    session.reading({"dome_f": 350}, at_min=1)
    session.reading({"dome_f": 340}, at_min=1)
    assert [value for _, value in dome(session)] == [340]


def test_without_a_logbook_it_only_talks(rulebook, clock):
    session = Session(Conversation(rulebook), None, clock, LogbookError("the disk is gone"))
    assert session.say("dome 350").text.startswith("Nothing of this talk is kept: the disk is gone.")
    assert "kept" not in session.say("dome 340").text
    assert session.cook_id is None
    for impossible in (session.finish, lambda: session.note("oak")):
        with pytest.raises(LogbookError, match="nothing of this talk is kept"):
            impossible()
