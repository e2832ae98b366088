"""What a turn means for each cook of a talk: begun, renamed, told of, advised, over."""

from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from advisor.cook import Cook, Deed
from advisor.cooknames import same_cooker
from advisor.keeping.happenings import Happenings, happened, slipped, taken_back
from advisor.keeping.place import FINISH, NOTE, KeptTurn, Place, sign_of
from advisor.logbook import records
from advisor.profile import CookerProfile
from advisor.stand import Stand

if TYPE_CHECKING:
    from advisor.logbook.talkwriter import TalkWriter

ProfileOf = Callable[[str], CookerProfile]


def begin_cooks(book: "TalkWriter", place: Place, turn: KeptTurn, profile_of: ProfileOf) -> Place:
    """A cook begins with the first fact told of it, or the first note."""
    noted = {turn.after.current} if turn.kind == NOTE else set()
    begun = {cook.name for cook in turn.after.all if cook.situation.facts or cook.name in noted} - set(place.cooks)
    assert place.talk_id is not None
    moment = place.ms(turn.minute)
    new = {name: book.begin_cook_of(place.talk_id, called(book, name, profile_of(name)), moment) for name in sorted(begun)}
    return replace(place, cooks={**place.cooks, **new})


def renamed(book: "TalkWriter", place: Place, turn: KeptTurn, profile_of: ProfileOf) -> Place:
    """The cooker nobody had named has a name now (or, taken back, has none again): its cook goes on."""
    before, after = _told_of(turn.before), _told_of(turn.after)
    gone, come = before - after, after - before
    if turn.kind == FINISH or len(gone) != 1 or len(come) != 1 or "" not in gone | come or not gone <= set(place.cooks):
        return place
    (old,), (new,) = gone, come
    cook_id = place.cooks[old]
    book.name_cooker(cook_id, called(book, new, profile_of(new)))
    return replace(place, cooks={new if name == old else name: number for name, number in place.cooks.items()})


def _told_of(stand: Stand) -> set[str]:
    return {cook.name for cook in stand.all if cook.situation.facts}


def called(book: "TalkWriter", name: str, profile: CookerProfile) -> str:
    """The name under which the logbook knows a cooker: "number one" of last week is "1" of today."""
    name = name or profile.name or ""
    known = (cooker.name for cooker in book.cookers())
    return next((old for old in known if old == name or old and name and same_cooker(old, name)), name)


def finish(book: "TalkWriter", place: Place, turn: KeptTurn) -> Place:
    """The cook in hand is over."""
    name = turn.after.current
    if name in place.cooks:
        book.end_cook(place.cooks[name], place.ms(turn.minute), turn.content.get("outcome"))
    return replace(place, cooks={other: number for other, number in place.cooks.items() if other != name})


def enter_cook(book: "TalkWriter", place: Place, cook_id: int, turn: KeptTurn, name: str, profile: CookerProfile) -> None:
    """What a turn told and took back of one cook."""
    before, after = _named(turn.before, name), _named(turn.after, name)
    if before is after:
        return
    _drop(book, place, cook_id, slipped((slip.fact, slip.at_min) for slip in turn.after.slips if slip.cooker == name))
    if turn.after.went_back:
        _drop(book, place, cook_id, taken_back(before, after))
    travel = {"bottom": profile.bottom_travel_in, "top": profile.top_travel_in}
    _put(book, place, cook_id, happened(before, after, travel))


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
    book.put_readings(cook_id, [records.Reading(place.ms(minute), *shown) for minute, *shown in new.readings])
    book.put_moves(cook_id, [records.Move(place.ms(minute), *put) for minute, *put in new.placed])
    book.add_lids(cook_id, [place.ms(minute) for minute in new.lids])
    for deed in new.deeds:
        book.add_deed(cook_id, _kept(deed, place))
    if new.target_f is not None:
        book.aim(cook_id, new.target_f)


def _kept(deed: Deed, place: Place) -> records.Deed:
    return records.Deed(place.ms(deed.at_min), deed.act, deed.says)


def say(book: "TalkWriter", place: Place, turn: KeptTurn, reply: Mapping[str, Any]) -> Place:
    """What was advised about the cook in hand, unless it is what it was advised before."""
    name = turn.after.current
    if name not in place.cooks or not (reply.get("steps") or reply.get("cautions")):
        return place
    cook_id = place.cooks[name]
    if (sign := sign_of(reply)) == place.said.get(str(cook_id)):
        return place
    said = {part: reply[part] for part in ("text", "steps", "cautions", "forecast")}
    book.add_advice(cook_id, records.Advice(place.ms(turn.minute), **said))
    return replace(place, said={**place.said, str(cook_id): sign})
