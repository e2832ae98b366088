"""The working memory of one cook: what has been told, when, and what newer words end. Frozen; `tell` gives a new one.

It keeps only what was told or done. What follows from it is worked out afresh each turn (derivation, rules).
"""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from advisor.facts import Fact, Origin, Value
from advisor.vocabulary import Vocabulary

MOST_READINGS = 200          # the last hours of a cook; older ones say nothing about the fire now
TREND_GOES_STALE_MIN = 5.0   # a trend told longer ago than this does not outlive a new reading
VENTS = ("bottom_vent", "top_vent", "bottom_vent_in", "top_vent_in")


@dataclass(frozen=True, slots=True)
class Move:
    """Something done to the air at a minute: where a vent was put (None: left alone), or the lid lifted and closed.

    bottom_was, top_was: where it stood before (None: unknown).
    """

    at_min: float
    bottom: float | None = None
    top: float | None = None
    lid: bool = False
    bottom_was: float | None = None
    top_was: float | None = None


@dataclass(frozen=True, slots=True)
class Situation:
    """facts: as told, by name; readings: (minute, °F) of the dome, oldest first; moves of vents and lid, oldest first;
    declined: questions not answered."""

    facts: Mapping[str, Fact] = field(default_factory=dict)
    readings: tuple[tuple[float, float], ...] = ()
    moves: tuple[Move, ...] = ()
    declined: frozenset[str] = frozenset()

    def value(self, name: str, vocabulary: Vocabulary, now: float) -> Value | None:
        """What is told of `name`, moved on to the minute `now`; None when unknown."""
        fact = self.facts.get(name)
        return None if fact is None or _faded(fact, vocabulary, now) else aged(fact, vocabulary, now).value

    def at(self, vocabulary: Vocabulary, now: float) -> dict[str, Fact]:
        """All told facts that still say something, those that move with the clock moved on to `now`."""
        return {name: aged(fact, vocabulary, now) for name, fact in self.facts.items()
                if not _faded(fact, vocabulary, now)}

    def decline(self, fact: str) -> "Situation":
        """Remember that the person can't answer for `fact`."""
        return replace(self, declined=self.declined | {fact})

    def tell(self, told: Mapping[str, Value], origin: Origin, vocabulary: Vocabulary, now: float) -> "Situation":
        """The situation after `told`. Values must have passed vocabulary.check."""
        new = {name: Fact(name, value, origin, now, self._since(name, value, now)) for name, value in told.items()}
        moved = _vents_moved(self.facts, new)
        target = _target_between_the_lines(new, now)
        ended = _ended(new, self.facts, vocabulary, now)
        kept = {name: fact for name, fact in self.facts.items() if name not in ended}
        facts = kept | _flags_ended(kept, new, vocabulary, now) | target | moved | new
        readings = self.readings + tuple((now, float(fact.value)) for name, fact in new.items() if name == "dome_f")
        return replace(self, facts=facts, readings=readings[-MOST_READINGS:], declined=self.declined - set(told),
                       moves=(self.moves + _moves(self.facts, moved | new, now))[-MOST_READINGS:])

    def _since(self, name: str, value: Value, now: float) -> float:
        """Since when a fact has been told with this value without a break."""
        old = self.facts.get(name)
        return old.since_min if old and old.value == value and old.since_min is not None else now

    def remember(self, concluded: Mapping[str, Fact], vocabulary: Vocabulary) -> "Situation":
        """Keep the flags that rules found true and that something can end: false later is not the same as unknown."""
        new = {name: fact for name, fact in concluded.items()
               if fact.value is True and fact.origin == "derived" and name not in self.facts
               and name in vocabulary.told and vocabulary[name].ended_by}
        return replace(self, facts={**self.facts, **new}) if new else self


def _faded(fact: Fact, vocabulary: Vocabulary, now: float) -> bool:
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


def _ended(new: Mapping[str, Fact], old: Mapping[str, Fact], vocabulary: Vocabulary, now: float) -> set[str]:
    """Names whose older facts a newer word ends (`replaces`, `change_ends` in the vocabulary)."""
    ended = {name for told in new for name in vocabulary[told].replaces}
    ended |= {name for told, fact in new.items() if told in old and old[told].value != fact.value
              for name in vocabulary[told].change_ends}
    if "dome_f" in new or "over_f" in new:
        ended |= {name for name in ("trend", "rate_f_per_min")
                  if name in old and now - old[name].at_min > TREND_GOES_STALE_MIN}
    return ended


def _moves(old: Mapping[str, Fact], new: Mapping[str, Fact], now: float) -> tuple[Move, ...]:
    """What the telling says was done to the air, and when. A vent merely told for the first time was not moved."""
    made = []
    if (moved := new.get("vents_moved_ago_min")) and {"bottom_vent", "top_vent"} & set(new):
        bottom, top = (_opening(new, name) for name in ("bottom_vent", "top_vent"))
        was_bottom, was_top = (_opening(old, name) if name in new else None for name in ("bottom_vent", "top_vent"))
        made.append(Move(now - float(moved.value), bottom, top, bottom_was=was_bottom, top_was=was_top))
    if (lifted := new.get("lid_opened_ago_min")) and "lid_opened_ago_min" not in old or lifted and lifted.value == 0:
        made.append(Move(now - float(lifted.value), lid=True))
    return tuple(made)


def _opening(facts: Mapping[str, Fact], vent: str) -> float | None:
    return float(facts[vent].value) if vent in facts else None


def _vents_moved(old: Mapping[str, Fact], new: Mapping[str, Fact]) -> dict[str, Fact]:
    """A vent told to stand elsewhere than before has been moved just now, unless the words say when."""
    changed = [fact for name, fact in new.items()
               if name in VENTS and name in old and old[name].value != fact.value]
    if not changed or "vents_moved_ago_min" in new:
        return {}
    return {"vents_moved_ago_min": Fact("vents_moved_ago_min", 0.0, "derived", changed[0].at_min)}


def _target_between_the_lines(new: Mapping[str, Fact], now: float) -> dict[str, Fact]:
    """A reading and a distance told in one breath say the target too."""
    if "dome_f" in new and "over_f" in new and "target_f" not in new:
        return {"target_f": Fact("target_f", float(new["dome_f"].value) - float(new["over_f"].value), "derived", now)}
    return {}


def _flags_ended(kept: Mapping[str, Fact], new: Mapping[str, Fact], vocabulary: Vocabulary,
                 now: float) -> dict[str, Fact]:
    """True facts that something newly told puts an end to (`ended_by` in the vocabulary)."""
    return {name: Fact(name, False, "derived", now) for name, fact in kept.items()
            if fact.value is True and any(condition.holds(new[condition.fact].value)
                                          for condition in vocabulary[name].ended_by if condition.fact in new)}
