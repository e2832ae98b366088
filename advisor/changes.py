"""What newer words do to older facts: ages, endings, vents and lid moved. Pure functions on facts by name."""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from advisor.facts import Fact
from advisor.vocabulary import Vocabulary

TREND_GOES_STALE_MIN = 3.0   # a trend told longer ago than this does not outlive a new reading
MEAT_MOVED_F = 3.0   # a core that changed by that much stands still no more: judgement
FAR_FROM_TARGET_F = 25.0     # judgement: a dome this far off is no longer "near target"
VENTS = ("bottom_vent", "top_vent", "bottom_vent_in", "top_vent_in")


@dataclass(frozen=True, slots=True)
class Move:
    """Something done to the air at a minute: where a vent was put (None: left alone), or the lid lifted and closed.

    bottom_was, top_was: where a vent that was moved stood before (None: unknown). in_inches: openings are inches, as told.
    """

    at_min: float
    bottom: float | None = None
    top: float | None = None
    lid: bool = False
    bottom_was: float | None = None
    top_was: float | None = None
    in_inches: bool = False


def in_openings(move: Move, bottom_inch: float, top_inch: float) -> Move:
    """A move told in inches as openings; bottom_inch, top_inch: what an inch opens of each vent."""
    if not move.in_inches:
        return move

    def opened(inches: float | None, inch: float) -> float | None:
        return None if inches is None else min(1.0, inches * inch)
    return Move(move.at_min, opened(move.bottom, bottom_inch), opened(move.top, top_inch), move.lid,
                opened(move.bottom_was, bottom_inch), opened(move.top_was, top_inch))


def faded(fact: Fact, vocabulary: Vocabulary, now: float) -> bool:
    """A reading of hours ago says nothing about the fire now."""
    fades = vocabulary[fact.name].fades_min
    return fades is not None and now - fact.at_min > fades


def aged(fact: Fact, vocabulary: Vocabulary, now: float) -> Fact:
    """`fact` as it stands at the minute `now`: ages grow, deadlines draw near."""
    clock = vocabulary[fact.name].clock
    if clock == "stands" or not isinstance(fact.value, float):
        return fact
    passed = now - fact.at_min
    value = fact.value + passed if clock == "grows" else max(0.0, fact.value - passed)
    low, high = vocabulary[fact.name].bounds
    return replace(fact, value=min(max(value, low), high), at_min=now)


def ended_by_words(new: Mapping[str, Fact], old: Mapping[str, Fact], vocabulary: Vocabulary, now: float) -> set[str]:
    """Names whose older facts a newer word ends (`replaces`, `change_ends` in the vocabulary)."""
    ended = {name for told in new for name in vocabulary[told].replaces}
    ended |= {name for told, fact in new.items() if told in old and old[told].value != fact.value
              for name in vocabulary[told].change_ends}
    if "meat_f" in new and "meat_f" in old and abs(float(new["meat_f"].value) - float(old["meat_f"].value)) >= MEAT_MOVED_F:
        ended |= {"meat_trend"} - set(new)
    if "dome_f" in new or "over_f" in new:
        ended |= {name for name in ("trend", "rate_f_per_min")
                  if name in old and now - old[name].at_min > TREND_GOES_STALE_MIN}
    return ended


def moves_in(old: Mapping[str, Fact], new: Mapping[str, Fact], now: float) -> tuple[Move, ...]:
    """What the telling says was done to the air, and when. A vent merely told for the first time was not moved."""
    made = []
    for unit in ("", "_in"):
        names = (f"bottom_vent{unit}", f"top_vent{unit}")
        if (moved := new.get("vents_moved_ago_min")) and set(names) & set(new):
            bottom, top = (_opening(new, name) for name in names)
            was_bottom, was_top = (_opening(old, name) if name in new else None for name in names)
            made.append(Move(now - float(moved.value), bottom, top, bottom_was=was_bottom, top_was=was_top, in_inches=bool(unit)))
    if (lifted := new.get("lid_opened_ago_min")) and "lid_opened_ago_min" not in old or lifted and lifted.value == 0:
        made.append(Move(now - float(lifted.value), lid=True))
    return tuple(made)


def _opening(facts: Mapping[str, Fact], vent: str) -> float | None:
    return float(facts[vent].value) if vent in facts else None


def vents_moved(old: Mapping[str, Fact], new: Mapping[str, Fact]) -> dict[str, Fact]:
    """A vent told to stand elsewhere than before has been moved just now, unless the words say when."""
    changed = [fact for name, fact in new.items()
               if name in VENTS and name in old and old[name].value != fact.value]
    if not changed or "vents_moved_ago_min" in new:
        return {}
    return {"vents_moved_ago_min": Fact("vents_moved_ago_min", 0.0, "derived", changed[0].at_min)}


def target_between_the_lines(new: Mapping[str, Fact], now: float) -> dict[str, Fact]:
    """A reading and a distance told in one breath say the target too."""
    if "dome_f" in new and "over_f" in new and "target_f" not in new:
        return {"target_f": Fact("target_f", float(new["dome_f"].value) - float(new["over_f"].value), "derived", now)}
    return {}


def dome_stays(old: Mapping[str, Fact], new: Mapping[str, Fact]) -> dict[str, Fact]:
    """Another target moves no fire: a dome known as a distance from the old one is kept as a reading."""
    if "target_f" not in new or {"dome_f", "over_f"} & set(new) or not {"target_f", "over_f"} <= set(old):
        return {}
    over = old["over_f"]
    return {"dome_f": Fact("dome_f", float(old["target_f"].value) + float(over.value), "derived", over.at_min)}


def lid_shut_again(old: Mapping[str, Fact], new: Mapping[str, Fact]) -> dict[str, Fact]:
    """A lid that stood open and is shut now was open a moment ago, whoever shut it."""
    was, now_is = old.get("lid_open"), new.get("lid_open")
    if not (was and was.value is True and now_is and now_is.value is False) or "lid_was_open" in new:
        return {}
    return {"lid_was_open": Fact("lid_was_open", True, "derived", now_is.at_min)}


def stood_out(old: Mapping[str, Fact], new: Mapping[str, Fact], now: float) -> dict[str, Fact]:
    """Food that goes on stops standing about: for how long it was out of the fridge before is kept as it was then."""
    on, out = new.get("food_on"), new.get("out_of_fridge_min") or old.get("out_of_fridge_min")
    goes_on = on and on.value is True and not (old.get("food_on") and old["food_on"].value is True)
    if not goes_on or out is None or "stood_out_min" in new:
        return {}
    on_for = float(new["food_on_for_min"].value) if "food_on_for_min" in new else 0.0
    return {"stood_out_min": Fact("stood_out_min", max(0.0, float(out.value) + now - out.at_min - on_for), "derived", now)}


def left_target(old: Mapping[str, Fact], new: Mapping[str, Fact]) -> set[str]:
    """The time near the target ends once a reading stands far from it."""
    over, dome, target = new.get("over_f"), new.get("dome_f"), new.get("target_f") or old.get("target_f")
    off = float(over.value) if over else float(dome.value) - float(target.value) if dome and target else 0.0
    return {"at_target_for_min"} - set(new) if abs(off) >= FAR_FROM_TARGET_F else set()


def move_name(act: str, parameters: Mapping[str, object]) -> str:
    """What the hands do in a step, whatever the amount: "set_vent bottom", "burp_lid"."""
    return f"{act} {parameters['vent']}" if "vent" in parameters else act


def moves_shown(new: Mapping[str, Fact]) -> set[str]:
    """Moves that can be made after all: a vent told to have been moved moves."""
    if "vents_moved_ago_min" not in new:
        return set()
    return {f"set_vent {name.split('_')[0]}" for name in VENTS if name in new}


def flags_ended(kept: Mapping[str, Fact], new: Mapping[str, Fact], vocabulary: Vocabulary,
                 now: float) -> dict[str, Fact]:
    """True facts that something newly told puts an end to (`ended_by` in the vocabulary)."""
    return {name: Fact(name, False, "derived", now) for name, fact in kept.items()
            if fact.value is True and any(condition.holds(new[condition.fact].value)
                                          for condition in vocabulary[name].ended_by if condition.fact in new)}


def flags_open_again(kept: Mapping[str, Fact], new: Mapping[str, Fact], vocabulary: Vocabulary) -> set[str]:
    """False flags whose end is over: vents shut again can choke again. They are unknown until told or concluded anew."""
    now = {**kept, **new}
    return {name for name, fact in kept.items() if fact.value is False and name not in new
            and any(condition.fact in new for condition in vocabulary[name].ended_by)
            and not any(condition.fact in now and condition.holds(now[condition.fact].value)
                        for condition in vocabulary[name].ended_by)}
