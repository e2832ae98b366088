"""The working memory of one cook: what has been told, when, and what newer words end. Frozen; `tell` gives a new one.

It keeps only what was told or done. What follows from it is worked out afresh each turn (derivation, rules).
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace

from advisor.facts import Fact, Origin, Value
from advisor.vocabulary import Vocabulary

MOST_READINGS = 200          # the last hours of a cook; older ones say nothing about the fire now
TREND_GOES_STALE_MIN = 5.0   # a trend told longer ago than this does not outlive a new reading
FAR_FROM_TARGET_F = 25.0     # judgement: a dome this far off is no longer "near target"
VENTS = ("bottom_vent", "top_vent", "bottom_vent_in", "top_vent_in")
CANNOT, HALF_SET = "hands_cannot", "vents_half_set"  # about the cook's hands; no rule reads them, the plan does
OF_THE_FOOD = ("food", "food_kg", "meat_kind", "intact", "bird", "fat_share", "leftover", "resting", "meat_f",
               "meat_target_f", "meat_trend", "meat_was_f", "meat_start_f", "peak_meat_f", "meat_held_for_min",
               "food_on_for_min", "danger_zone_for_min", "cooling_for_min", "out_of_fridge_min", "fire_died_ago_min")


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
    declined: questions not answered; cannot: moves (`move_name`) that the person can't make; half_set_at: the minute
    at which one of two vents that belong together was set (None: nothing half done)."""

    facts: Mapping[str, Fact] = field(default_factory=dict)
    readings: tuple[tuple[float, float], ...] = ()
    moves: tuple[Move, ...] = ()
    declined: frozenset[str] = frozenset()
    cannot: frozenset[str] = frozenset()
    half_set_at: float | None = None

    def value(self, name: str, vocabulary: Vocabulary, now: float) -> Value | None:
        """What is told of `name`, moved on to the minute `now`; None when unknown."""
        fact = self.facts.get(name)
        return None if fact is None or _faded(fact, vocabulary, now) else aged(fact, vocabulary, now).value

    def at(self, vocabulary: Vocabulary, now: float) -> dict[str, Fact]:
        """All told facts that still say something, those that move with the clock moved on to `now`."""
        known = {name: aged(fact, vocabulary, now) for name, fact in self.facts.items()
                 if not _faded(fact, vocabulary, now)}
        return known | self._hands(now)

    def _hands(self, now: float) -> dict[str, Fact]:
        """What the cook's hands can't do, and whether they are halfway through moving both vents."""
        hands = {CANNOT: Fact(CANNOT, ",".join(sorted(self.cannot)), "said", now)} if self.cannot else {}
        moved = self.facts.get("vents_moved_ago_min")
        if moved and self.half_set_at is not None and moved.at_min == self.half_set_at:
            hands[HALF_SET] = Fact(HALF_SET, True, "derived", self.half_set_at)
        return hands

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
        moved = _vents_moved(self.facts, new)
        target = _target_between_the_lines(new, now) | _dome_stays(self.facts, new)
        ended = _ended(new | target, self.facts, vocabulary, now) | _left_target(self.facts, new)
        kept = {name: fact for name, fact in self.facts.items() if name not in ended}
        facts = kept | _flags_ended(kept, new, vocabulary, now) | target | moved | new
        readings = self.readings + _reading(facts, new, now)
        return replace(self, facts=facts, readings=readings[-MOST_READINGS:], declined=self.declined - set(told),
                       cannot=self.cannot - _moves_shown(moved | new),
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


def _dome_stays(old: Mapping[str, Fact], new: Mapping[str, Fact]) -> dict[str, Fact]:
    """Another target moves no fire: a dome known as a distance from the old one is kept as a reading."""
    if "target_f" not in new or {"dome_f", "over_f"} & set(new) or not {"target_f", "over_f"} <= set(old):
        return {}
    over = old["over_f"]
    return {"dome_f": Fact("dome_f", float(old["target_f"].value) + float(over.value), "derived", over.at_min)}


def _left_target(old: Mapping[str, Fact], new: Mapping[str, Fact]) -> set[str]:
    """The time near the target ends once a reading stands far from it."""
    over, dome, target = new.get("over_f"), new.get("dome_f"), new.get("target_f") or old.get("target_f")
    off = float(over.value) if over else float(dome.value) - float(target.value) if dome and target else 0.0
    return {"at_target_for_min"} - set(new) if abs(off) >= FAR_FROM_TARGET_F else set()


def _reading(facts: Mapping[str, Fact], new: Mapping[str, Fact], now: float) -> tuple[tuple[float, float], ...]:
    """The dome as newly told, be it as a distance from a target that is known, or becomes known now."""
    if "dome_f" in new:
        return ((now, float(new["dome_f"].value)),)
    if {"over_f", "target_f"} & set(new) and {"over_f", "target_f"} <= set(facts):
        over = facts["over_f"]
        return ((over.at_min, float(facts["target_f"].value) + float(over.value)),)
    return ()


def move_name(act: str, parameters: Mapping[str, object]) -> str:
    """What the hands do in a step, whatever the amount: "set_vent bottom", "burp_lid"."""
    return f"{act} {parameters['vent']}" if "vent" in parameters else act


def _moves_shown(new: Mapping[str, Fact]) -> set[str]:
    """Moves that can be made after all: a vent told to have been moved moves."""
    return {f"set_vent {name.split('_')[0]}" for name in VENTS if name in new} if "vents_moved_ago_min" in new else set()


def _flags_ended(kept: Mapping[str, Fact], new: Mapping[str, Fact], vocabulary: Vocabulary,
                 now: float) -> dict[str, Fact]:
    """True facts that something newly told puts an end to (`ended_by` in the vocabulary)."""
    return {name: Fact(name, False, "derived", now) for name, fact in kept.items()
            if fact.value is True and any(condition.holds(new[condition.fact].value)
                                          for condition in vocabulary[name].ended_by if condition.fact in new)}
