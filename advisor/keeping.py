"""One turn of a conversation, entered into the logbook: who said what, and what it means for each cook."""

from collections.abc import Mapping
from dataclasses import asdict, dataclass, field, replace
from typing import TYPE_CHECKING, Any

from advisor.clock import TalkClock
from advisor.cook import Cook, Deed
from advisor.cooknames import same_cooker
from advisor.happenings import Happenings, happened, slipped, taken_back
from advisor.logbook import records
from advisor.profile import CookerProfile
from advisor.reply import Reply
from advisor.stand import Stand

if TYPE_CHECKING:
    from advisor.logbook.talkwriter import TalkWriter

MS = 60_000
RESET, FINISH, NOTE = "reset", "finish", "note"


@dataclass(frozen=True, slots=True)
class Place:
    """Where a talk is kept. talk_id None: not entered yet; version: turns entered; cooks: numbers by the stand's names."""

    talk_id: int | None = None
    version: int = 0
    epoch_ms: int = 0
    cooks: Mapping[str, int] = field(default_factory=dict)

    @property
    def version_kept(self) -> tuple[int, int] | None:
        """As `Reader.open_version` gives it while nobody else goes on with the talk."""
        return None if self.talk_id is None else (self.talk_id, self.version)

    def ms(self, minute: float) -> int:
        """A minute of the talk as a moment."""
        return self.epoch_ms + round(minute * MS)


@dataclass(frozen=True, slots=True)
class KeptTurn:
    """A turn as it was taken: kind and content as they came in; before, after: the stand; state, clock: to go on from."""

    kind: str
    content: Mapping[str, Any]
    reply: Reply | None
    before: Stand
    after: Stand
    state: Mapping[str, Any]
    clock: TalkClock


def enter(book: "TalkWriter", place: Place, turn: KeptTurn, profile: CookerProfile) -> Place:
    """Enter a turn, and say where its talk is kept from then on."""
    if turn.kind == RESET:
        return _begin_anew(book, place, turn)
    place = place if place.talk_id is not None else _open(book, turn)
    place = _begin_cooks(book, _renamed(book, place, turn, profile), turn, profile)
    for name, cook_id in place.cooks.items():
        _enter_cook(book, place, cook_id, turn, name, profile)
    if turn.kind == FINISH:
        place = _finish(book, place, turn)
    return _enter_turn(book, place, turn)


def kept_state(turn: KeptTurn, place: Place) -> dict[str, Any]:
    """What a later process needs to go on."""
    return {"conversation": dict(turn.state), "clock": asdict(turn.clock), "cooks": dict(place.cooks)}


def clock_in(talk: records.Talk) -> TalkClock:
    """The clock of a talk as it was kept; of a state that holds none, as it stood when the talk began."""
    try:
        return TalkClock(**{name: float(value) for name, value in talk.state["clock"].items()})
    except (KeyError, TypeError, ValueError, AttributeError):
        return TalkClock(kept_at=talk.opened_ms / MS, now_min=max(0.0, (talk.opened_ms - talk.epoch_ms) / MS))


def epoch_of(clock: TalkClock) -> int:
    """The moment (ms) of minute 0, by what the real clock said at the last turn."""
    return round((clock.kept_at - clock.now_min) * MS)


# -- talks ------------------------------------------------------------------------------------------------------------


def _open(book: "TalkWriter", turn: KeptTurn) -> Place:
    place = Place(epoch_ms=epoch_of(turn.clock))
    number = book.open_new_talk(place.epoch_ms, round(turn.clock.kept_at * MS), kept_state(turn, place))
    return replace(place, talk_id=number)


def _begin_anew(book: "TalkWriter", place: Place, turn: KeptTurn) -> Place:
    """The reset is the last turn of the old talk; the new one begins with it."""
    if place.talk_id is not None:
        _enter_turn(book, place, turn, at_ms=round(turn.clock.kept_at * MS))
        book.close_talk(place.talk_id, round(turn.clock.kept_at * MS), RESET)
    return _open(book, turn)


def _enter_turn(book: "TalkWriter", place: Place, turn: KeptTurn, at_ms: int | None = None) -> Place:
    assert place.talk_id is not None
    reply = turn.reply.model_dump(mode="json") if turn.reply else {}
    place = replace(place, version=place.version + 1)
    at_ms = place.ms(turn.clock.now_min) if at_ms is None else at_ms
    book.add_turn(records.Turn(place.talk_id, place.version, at_ms, turn.kind, dict(turn.content), reply),
                  kept_state(turn, place))
    return place


# -- cooks ------------------------------------------------------------------------------------------------------------


def _begin_cooks(book: "TalkWriter", place: Place, turn: KeptTurn, profile: CookerProfile) -> Place:
    """A cook begins with the first fact told of it, or the first note."""
    noted = {turn.after.current} if turn.kind == NOTE else set()
    begun = {cook.name for cook in turn.after.all if cook.situation.facts or cook.name in noted} - set(place.cooks)
    assert place.talk_id is not None
    moment = place.ms(turn.clock.now_min)
    new = {name: book.begin_cook_of(place.talk_id, called(book, name, profile), moment) for name in sorted(begun)}
    return replace(place, cooks={**place.cooks, **new})


def _renamed(book: "TalkWriter", place: Place, turn: KeptTurn, profile: CookerProfile) -> Place:
    """The cooker nobody had named has a name now (or, taken back, has none again): its cook goes on."""
    before, after = _told_of(turn.before), _told_of(turn.after)
    gone, come = before - after, after - before
    if turn.kind == FINISH or len(gone) != 1 or len(come) != 1 or "" not in gone | come or not gone <= set(place.cooks):
        return place
    (old,), (new,) = gone, come
    cook_id = place.cooks[old]
    book.name_cooker(cook_id, called(book, new, profile))
    return replace(place, cooks={new if name == old else name: number for name, number in place.cooks.items()})


def _told_of(stand: Stand) -> set[str]:
    return {cook.name for cook in stand.all if cook.situation.facts}


def called(book: "TalkWriter", name: str, profile: CookerProfile) -> str:
    """The name under which the logbook knows a cooker: "number one" of last week is "1" of today."""
    name = name or profile.name or ""
    known = (cooker.name for cooker in book.cookers())
    return next((old for old in known if old == name or old and name and same_cooker(old, name)), name)


def _finish(book: "TalkWriter", place: Place, turn: KeptTurn) -> Place:
    name = turn.after.current
    if name in place.cooks:
        book.end_cook(place.cooks[name], place.ms(turn.clock.now_min), turn.content.get("outcome"))
    return replace(place, cooks={other: number for other, number in place.cooks.items() if other != name})


def _enter_cook(book: "TalkWriter", place: Place, cook_id: int, turn: KeptTurn, name: str, profile: CookerProfile) -> None:
    before, after = _named(turn.before, name), _named(turn.after, name)
    if turn.kind not in (FINISH, NOTE) and before is not after:
        _drop(book, place, cook_id, slipped((slip.fact, slip.at_min) for slip in turn.after.slips if slip.cooker == name))
        if turn.after.went_back:
            _drop(book, place, cook_id, taken_back(before, after))
        travel = {"bottom": profile.bottom_travel_in, "top": profile.top_travel_in}
        _put(book, place, cook_id, happened(before, after, travel))
    if name == turn.after.current:
        _say(book, place, cook_id, turn)


def _named(stand: Stand, name: str) -> Cook:
    return next((cook for cook in stand.all if cook.name == name), Cook(name=name))


def _drop(book: "TalkWriter", place: Place, cook_id: int, gone: Happenings) -> None:
    for minute, probe in gone.no_readings:
        book.drop_reading(cook_id, place.ms(minute), probe)
    for minute, vent in gone.no_moves:
        book.drop_move(cook_id, place.ms(minute), vent)
    for minute in gone.no_lids:
        book.drop_lid(cook_id, place.ms(minute))
    for deed in gone.no_deeds:
        book.drop_deed(cook_id, _kept(deed, place))


def _put(book: "TalkWriter", place: Place, cook_id: int, new: Happenings) -> None:
    for minute, probe, value, origin in new.readings:
        book.put_reading(cook_id, records.Reading(place.ms(minute), probe, value, origin))
    for minute, vent, opening, was in new.placed:
        book.put_move(cook_id, records.Move(place.ms(minute), vent, opening, was))
    book.add_lids(cook_id, [place.ms(minute) for minute in new.lids])
    for deed in new.deeds:
        book.add_deed(cook_id, _kept(deed, place))
    if new.target_f is not None:
        book.aim(cook_id, new.target_f)


def _kept(deed: Deed, place: Place) -> records.Deed:
    return records.Deed(place.ms(deed.at_min), deed.act, deed.says)


def _say(book: "TalkWriter", place: Place, cook_id: int, turn: KeptTurn) -> None:
    """The advice, unless it is the same as before; or the person's own words."""
    moment = place.ms(turn.clock.now_min)
    if turn.kind == NOTE:
        book.add_note(cook_id, moment, turn.content["words"])
    if turn.reply is None or not (turn.reply.steps or turn.reply.cautions):
        return
    said = turn.reply.model_dump(mode="json", include={"steps", "cautions", "forecast"})
    last = book.last_advice(cook_id)
    if last is None or (last.steps, last.cautions) != (said["steps"], said["cautions"]):
        book.add_advice(cook_id, records.Advice(moment, turn.reply.text, **said))
