"""From a kept talk to the next one: a cook is finished, its cooker's chart renewed, and the next talk goes by it."""

import pytest

from advisor.clock import SetClock
from advisor.conversation import Conversation
from advisor.logbook.opening import open_logbook
from advisor.session import Session
from advisor.terminal.ownlore import know, learn_from


class Hours:
    """A clock that is put on."""

    def __init__(self, minute: float = 29_000_000.0) -> None:
        self.minute = minute

    def minutes(self) -> float:
        return self.minute

    def minute_of_day(self) -> int:
        return 600


@pytest.fixture
def logbook(tmp_path):
    book = open_logbook(tmp_path)
    yield book
    book.close()


def cooked(rulebook, logbook, clock, top, dome=275):
    """A cook of an hour and a half at rest, told reading by reading."""
    session = know(Session(Conversation(rulebook), logbook, clock))
    session.say(f"lit 2 hours ago, dome {dome}, want 275, bottom vent an inch, top vent {top:.0%} open, steady")
    for _ in range(8):
        clock.minute += 10
        session.reading({"dome_f": float(dome)})
    return session


def test_a_finished_cook_renews_the_chart_and_the_next_talk_goes_by_it(rulebook, logbook):
    clock = Hours()
    session = cooked(rulebook, logbook, clock, 0.06)
    says = learn_from(session, session.finish("good"))
    assert "rests on 1 cook and" in says
    situation = {"dome_f": 262, "target_f": 275, "bottom_vent": 1.0, "top_vent": 1.0, "trend": "rising", "lit_ago_min": 40}
    next_talk = know(Session(Conversation(rulebook), logbook, clock))
    own, trade = next_talk.reading(situation), Conversation(rulebook).reading(situation, 0)
    tops = [[step.parameters["opening"] for step in reply.steps if step.parameters.get("vent") == "top"] for reply in (own, trade)]
    assert max(tops[0]) < min(tops[1])
    assert "learned from 1 of your cooks" in next_talk.say("why?").text


def test_a_cook_that_never_came_to_rest_leaves_the_trade_its_chart(rulebook, logbook):
    clock = Hours()
    session = know(Session(Conversation(rulebook), logbook, clock))
    session.say("dome 310, want 250, top half open, bottom an inch")
    assert learn_from(session, session.finish()) == ""
    assert logbook.profile("")["chart"]["cooks"] == 0
    next_talk = know(Session(Conversation(rulebook), logbook, clock))
    told = {"dome_f": 262, "target_f": 275, "bottom_vent": 1.0, "top_vent": 1.0, "trend": "rising", "lit_ago_min": 40}
    assert next_talk.reading(told).steps == Conversation(rulebook).reading(told, 0).steps


def test_a_cook_that_was_left_is_learned_from_when_the_next_talk_begins(rulebook, logbook):
    clock = Hours()
    cooked(rulebook, logbook, clock, 0.06)
    clock.minute += 30 * 60
    know(Session(Conversation(rulebook), logbook, clock))
    assert logbook.profile("")["chart"]["cooks"] == 1


def test_what_is_up_to_date_is_left_alone(rulebook, logbook, monkeypatch):
    clock = Hours()
    session = cooked(rulebook, logbook, clock, 0.06)
    learn_from(session, session.finish("good"))
    monkeypatch.setattr("advisor.ownchart.upkeep.bring_up_to_date", lambda *_, **__: pytest.fail("made again"))
    know(Session(Conversation(rulebook), logbook, clock))


def test_without_a_logbook_nothing_is_learned(rulebook):
    session = know(Session(Conversation(rulebook), None, SetClock()))
    assert session.logbook is None
