"""The working memory of one cook: what has been told, when, and what newer words end. Frozen; `tell` gives a new one.

It keeps only what was told or done. What follows from it is worked out afresh each turn (derivation, rules).
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace

from advisor.changes import (
    Move,
    aged,
    dome_stays,
    ended_by_words,
    faded,
    flags_ended,
    flags_open_again,
    left_target,
    lid_shut_again,
    moves_in,
    moves_shown,
    stood_out,
    target_between_the_lines,
    vents_moved,
)
from advisor.facts import Fact, Origin, Value
from advisor.vocabulary import Vocabulary

MOST_READINGS = 200          # the last hours of a cook; older ones say nothing about the fire now
SAME_MINUTE = 0.25           # readings closer than this are one
CANNOT, HALF_SET = "hands_cannot", "vents_half_set"  # about the cook's hands; no rule reads them, the plan does
OF_THE_FOOD = ("food", "food_kg", "meat_kind", "intact", "bird", "fat_share", "leftover", "resting", "food_wrapped", "meat_f",
               "meat_target_f", "meat_trend", "meat_was_f", "meat_start_f", "peak_meat_f", "meat_held_for_min",
               "food_on_for_min", "danger_zone_for_min", "cooling_for_min", "out_of_fridge_min", "stood_out_min",
               "fire_died_ago_min")


@dataclass(frozen=True, slots=True)
class Situation:
    """facts: as told, by name; readings: (minute, °F) of the dome, oldest first - of its distance from the target
    (from_target) while nothing else was told; moves of vents and lid, oldest first; declined: questions not answered;
    cannot: moves (`move_name`) that the person can't make; half_set_at: the minute at which one of two vents that belong
    together was set (None: nothing half done)."""

    facts: Mapping[str, Fact] = field(default_factory=dict)
    readings: tuple[tuple[float, float], ...] = ()
    from_target: bool = False
    moves: tuple[Move, ...] = ()
    declined: frozenset[str] = frozenset()
    cannot: frozenset[str] = frozenset()
    half_set_at: float | None = None

    def value(self, name: str, vocabulary: Vocabulary, now: float) -> Value | None:
        """What is told of `name`, moved on to the minute `now`; None when unknown."""
        fact = self.facts.get(name)
        return None if fact is None or faded(fact, vocabulary, now) else aged(fact, vocabulary, now).value

    def at(self, vocabulary: Vocabulary, now: float) -> dict[str, Fact]:
        """All told facts that still say something, those that move with the clock moved on to `now`."""
        known = {name: aged(fact, vocabulary, now) for name, fact in self.facts.items()
                 if not faded(fact, vocabulary, now)}
        return known | self._hands(now)

    def _hands(self, now: float) -> dict[str, Fact]:
        """What the cook's hands can't do, and whether they are halfway through moving both vents."""
        hands = {CANNOT: Fact(CANNOT, ",".join(sorted(self.cannot)), "said", now)} if self.cannot else {}
        if self.is_half_set:
            hands[HALF_SET] = Fact(HALF_SET, True, "derived", self.half_set_at)
        return hands

    @property
    def is_half_set(self) -> bool:
        """Whether one of two vents that belong together is set and nothing was moved since."""
        moved = self.facts.get("vents_moved_ago_min")
        return moved is not None and self.half_set_at is not None and moved.at_min == self.half_set_at

    def decline(self, fact: str) -> "Situation":
        """Remember that the person can't answer for `fact`."""
        return replace(self, declined=self.declined | {fact})

    def unable(self, move: str) -> "Situation":
        """Remember that the person can't make `move` (a `move_name`)."""
        return replace(self, cannot=self.cannot | {move})

    def take_back(self, names: Iterable[str]) -> "Situation":
        """The situation without what was last told of `names`: a slip of the tongue is neither a reading nor a move."""
        readings = self.readings[:-1] if {"dome_f", "over_f"} & set(names) & set(self.facts) else self.readings
        return replace(self, facts={name: fact for name, fact in self.facts.items() if name not in set(names)},
                       readings=readings)

    def without_food(self) -> "Situation":
        """The food is thrown away: nothing told of it counts any more."""
        return replace(self, facts={name: fact for name, fact in self.facts.items() if name not in OF_THE_FOOD})

    def tell(self, told: Mapping[str, Value], origin: Origin, vocabulary: Vocabulary, now: float) -> "Situation":
        """The situation after `told`. Values must have passed vocabulary.check."""
        new = {name: Fact(name, value, origin, now, self._since(name, value, now)) for name, value in told.items()}
        moved = vents_moved(self.facts, new) | (lid_shut_again(self.facts, new) if origin == "said" and "lid_was_open" in vocabulary else {})
        target = target_between_the_lines(new, now) | dome_stays(self.facts, new)
        ended = ended_by_words(new | target, self.facts, vocabulary, now) | left_target(self.facts, new)
        kept = {name: fact for name, fact in self.facts.items() if name not in ended}
        again = flags_open_again(kept, target | moved | new, vocabulary)
        kept = {name: fact for name, fact in kept.items() if name not in again}
        facts = kept | flags_ended(kept, new, vocabulary, now) | target | stood_out(self.facts, new, now) | moved | new
        readings, from_target = self._read(facts, new, now)
        return replace(self, facts=facts, readings=readings[-MOST_READINGS:], from_target=from_target,
                       declined=self.declined - set(told),
                       cannot=self.cannot - moves_shown(moved | new),
                       moves=(self.moves + moves_in(self.facts, moved | new, now))[-MOST_READINGS:])

    def _since(self, name: str, value: Value, now: float) -> float:
        """Since when a fact has been told with this value without a break."""
        old = self.facts.get(name)
        return old.since_min if old and old.value == value and old.since_min is not None else now

    def _read(self, facts: Mapping[str, Fact], new: Mapping[str, Fact],
              now: float) -> tuple[tuple[tuple[float, float], ...], bool]:
        """(readings, from_target) with what is newly told; of two in one minute the newer counts."""
        target = float(facts["target_f"].value) if "target_f" in facts else None
        kept, from_target = self.readings, self.from_target
        if from_target and target is not None:
            kept, from_target = tuple((minute, over + target) for minute, over in kept), False
        if not {"dome_f", "over_f"} & set(new):
            return kept, from_target
        told = float(new["dome_f"].value) if "dome_f" in new else (target or 0.0) + float(new["over_f"].value)
        on_its_own = "dome_f" not in new and target is None
        kept = kept if on_its_own == from_target else ()
        return (*(reading for reading in kept if now - reading[0] >= SAME_MINUTE), (now, told)), on_its_own

    def remember(self, concluded: Mapping[str, Fact], vocabulary: Vocabulary) -> "Situation":
        """Keep the flags that rules found true and that something can end: false later is not the same as unknown."""
        new = {name: fact for name, fact in concluded.items()
               if fact.value is True and fact.origin == "derived" and name not in self.facts
               and name in vocabulary.told and vocabulary[name].ended_by}
        return replace(self, facts={**self.facts, **new}) if new else self
