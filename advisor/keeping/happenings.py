"""What happened at a cook between two of its states, as figures to be kept. Pure; minutes of the conversation's clock."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import TypeVar

from advisor.changes import Move
from advisor.cook import Cook, Deed
from advisor.facts import Fact

PROBES = {"dome_f": "dome", "over_f": "dome", "grate_f": "grate", "meat_f": "meat", "ambient_f": "ambient"}
VENTS = ("bottom", "top")
Item = TypeVar("Item")

Reading = tuple[float, str, float, str]           # minute, probe, °F, said or measured
Placed = tuple[float, str, float, float | None]   # minute, vent, opening 0..1, where it stood before


@dataclass(frozen=True, slots=True)
class Happenings:
    """readings, placed, lids, deeds: new ones. no_readings (minute, probe), no_moves (minute, vent), no_lids, no_deeds:
    those that were taken back. target_f: a new target."""

    readings: tuple[Reading, ...] = ()
    placed: tuple[Placed, ...] = ()
    lids: tuple[float, ...] = ()
    deeds: tuple[Deed, ...] = ()
    no_readings: tuple[tuple[float, str], ...] = ()
    no_moves: tuple[tuple[float, str], ...] = ()
    no_lids: tuple[float, ...] = ()
    no_deeds: tuple[Deed, ...] = ()
    target_f: float | None = None


def happened(before: Cook, after: Cook, travel_in: Mapping[str, float]) -> Happenings:
    """What is new in `after`. travel_in: full travel of each vent (inches), by which inches are openings."""
    moves = _new(after.situation.moves, before.situation.moves)
    target = after.situation.facts.get("target_f")
    aims = target and _value(before, "target_f") != target.value
    return Happenings(
        readings=_new(_readings(after), _readings(before)),
        placed=(*_moved(moves), *_told(before, after, moves, travel_in)),
        lids=tuple(move.at_min for move in moves if move.lid),
        deeds=_new(after.deeds, before.deeds),
        target_f=float(target.value) if target and aims else None,
    )


def taken_back(before: Cook, after: Cook) -> Happenings:
    """What `before` held and `after`, an earlier state gone back to, does not."""
    moves = _new(before.situation.moves, after.situation.moves)
    told = _new(before.situation.facts.values(), after.situation.facts.values())
    return Happenings(
        no_readings=tuple((minute, probe) for minute, probe, *_ in _new(_readings(before), _readings(after))),
        no_moves=(*((minute, vent) for minute, vent, *_ in _moved(moves)), *slipped_moves((f.name, f.at_min) for f in told)),
        no_lids=tuple(move.at_min for move in moves if move.lid),
        no_deeds=_new(before.deeds, after.deeds),
    )


def slipped(slips: Iterable[tuple[str, float]]) -> Happenings:
    """What was told by slips of the tongue: facts, and the minutes at which they were told."""
    slips = list(slips)
    return Happenings(no_readings=tuple((minute, PROBES[fact]) for fact, minute in slips if fact in PROBES),
                      no_moves=slipped_moves(slips))


def slipped_moves(told: Iterable[tuple[str, float]]) -> tuple[tuple[float, str], ...]:
    """(minute, vent) of facts about vents that are told no more."""
    return tuple((minute, vent) for fact, minute in told for vent in VENTS if fact in (f"{vent}_vent", f"{vent}_vent_in"))


def _readings(cook: Cook) -> tuple[Reading, ...]:
    """All that thermometers showed, as far as the cook remembers it; a distance from an unknown target is no reading."""
    facts, situation = cook.situation.facts, cook.situation
    dome = () if situation.from_target else tuple((minute, "dome", value, _origin(facts, minute))
                                                  for minute, value in situation.readings)
    others = tuple((fact.at_min, probe, float(fact.value), fact.origin) for name, probe in PROBES.items()
                   if probe != "dome" and (fact := facts.get(name)) and fact.origin in ("said", "measured"))
    return (*dome, *others)


def _origin(facts: Mapping[str, Fact], minute: float) -> str:
    told = (facts[name] for name in ("dome_f", "over_f") if name in facts)
    return "measured" if any(fact.at_min == minute and fact.origin == "measured" for fact in told) else "said"


def _moved(moves: Iterable[Move]) -> tuple[Placed, ...]:
    ends = [(move.at_min, vent, getattr(move, vent), getattr(move, f"{vent}_was")) for move in moves if not move.in_inches for vent in VENTS]
    return tuple(placed for placed in ends if placed[2] is not None)


def _told(before: Cook, after: Cook, moves: Iterable[Move], travel_in: Mapping[str, float]) -> tuple[Placed, ...]:
    """Vents said to stand somewhere else than was known, that no move speaks of."""
    spoken_of = {placed[1] for placed in _moved(moves)}
    found = []
    for vent in VENTS:
        new, old = _opening(after, vent, travel_in), _opening(before, vent, travel_in)
        if new and vent not in spoken_of and (old is None or old[1] != new[1]):
            found.append((new[0], vent, new[1], old[1] if old else None))
    return tuple(found)


def _opening(cook: Cook, vent: str, travel_in: Mapping[str, float]) -> tuple[float, float] | None:
    """(minute, opening) of the newest word about a vent."""
    facts = cook.situation.facts
    told = [(fact.at_min, float(fact.value)) for fact in (facts.get(f"{vent}_vent"),) if fact]
    inches = [(fact.at_min, min(1.0, float(fact.value) / travel_in[vent])) for fact in (facts.get(f"{vent}_vent_in"),)
              if fact]
    return max(told + inches, default=None)


def _new(items: Iterable[Item], known: Iterable[Item]) -> tuple[Item, ...]:
    known = set(known)
    return tuple(item for item in items if item not in known)


def _value(cook: Cook, fact: str) -> object:
    return cook.situation.facts[fact].value if fact in cook.situation.facts else None
