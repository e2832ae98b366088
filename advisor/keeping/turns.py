"""One turn of a conversation, entered into the logbook, all or nothing: the caller holds the transaction."""

from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from advisor.keeping.cooks import begin_cooks, enter_cook, finish, renamed, say
from advisor.keeping.place import FINISH, NOTE, RESET, KeptTurn, Place, state_of
from advisor.logbook import records
from advisor.logbook.records import MS_A_MINUTE
from advisor.profile import CookerProfile

if TYPE_CHECKING:
    from advisor.logbook.talkwriter import TalkWriter

ProfileOf = Callable[[str], CookerProfile]


def enter(book: "TalkWriter", place: Place, turn: KeptTurn, profile_of: ProfileOf) -> Place:
    """Enter a turn, and say where its talk is kept from then on. profile_of: what is known of a cooker, by name."""
    reply = turn.reply.model_dump(mode="json") if turn.reply else {}
    if turn.kind == RESET:
        return _begin_anew(book, place, turn, reply)
    place = place if place.talk_id is not None else _open(book, turn)
    place = begin_cooks(book, renamed(book, place, turn, profile_of), turn, profile_of)
    if turn.kind not in (FINISH, NOTE):
        for name, cook_id in place.cooks.items():
            enter_cook(book, place, cook_id, turn, name, profile_of(name))
    if turn.kind == NOTE:
        book.add_note(place.cooks[turn.after.current], place.ms(turn.minute), turn.content["words"])
    place = say(book, place, turn, reply)
    if turn.kind == FINISH:
        place = finish(book, place, turn)
    return _enter_turn(book, place, turn, reply)


def _open(book: "TalkWriter", turn: KeptTurn) -> Place:
    """A new talk, whose minute 0 lies as far back as the turn's minute says."""
    place = Place(epoch_ms=round((turn.clock.kept_at - turn.clock.now_min) * MS_A_MINUTE))
    return replace(place, talk_id=book.open_new_talk(place.epoch_ms, turn.ms, state_of(turn, place)))


def _begin_anew(book: "TalkWriter", place: Place, turn: KeptTurn, reply: Mapping[str, Any]) -> Place:
    """The reset is the last turn of the old talk; the new one begins with it."""
    if place.talk_id is not None:
        _enter_turn(book, place, turn, reply)
        book.close_talk(place.talk_id, place.ms(turn.minute), RESET)
    return _open(book, turn)


def _enter_turn(book: "TalkWriter", place: Place, turn: KeptTurn, reply: Mapping[str, Any]) -> Place:
    assert place.talk_id is not None
    place = replace(place, version=place.version + 1)
    kept = records.Turn(place.talk_id, place.version, place.ms(turn.minute), turn.kind, dict(turn.content), dict(reply))
    book.add_turn(kept, state_of(turn, place))
    return place
