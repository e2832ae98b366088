"""The cookers that are going, by name, and which one is in hand. Knows nothing of words or advice."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from advisor.cook import Cook
from advisor.cooknames import same_cooker
from advisor.facts import Origin, Value
from advisor.rulebook.loader import Rulebook

MOST_TAKEN_BACK = 10
Snapshot = tuple[Mapping[str, Cook], str]  # the cooks by name, and which one was in hand

FOOD_THROWN = "food_thrown"


@dataclass(frozen=True, slots=True)
class Slip:
    """A fact told of a cooker at a minute that was taken back."""

    cooker: str
    fact: str
    at_min: float


class Stand:
    """Cooks by name; "" is the cooker nobody has named. It remembers how it stood before the last tellings.

    slips: what this turn took back; went_back: whether this turn took back all that the last telling told.
    """

    def __init__(self, cooks: Iterable[Cook] = (), current: str = "", earlier: Iterable[Snapshot] = ()) -> None:
        self._cooks: dict[str, Cook] = {"": Cook()} | {cook.name: cook for cook in cooks}
        self.current = current if current in self._cooks else ""
        self._earlier: tuple[Snapshot, ...] = tuple(earlier)
        self.new_turn()

    def new_turn(self) -> None:
        """What was taken back before is no news any more."""
        self.slips: tuple[Slip, ...] = ()
        self.went_back = False

    def copy(self) -> "Stand":
        """A second one that later changes to this one leave alone; cooks are frozen and may be shared."""
        other = Stand(self.all, self.current, self._earlier)
        other.slips, other.went_back = self.slips, self.went_back
        return other

    def came_from(self, before: "Stand") -> None:
        """Remember `before`, if anything was told or done since: it can be gone back to."""
        if self._told() != before._told():
            self._earlier = (*self._earlier, (before._cooks, before.current))[-MOST_TAKEN_BACK:]

    def go_back(self) -> bool:
        """As it stood before the last telling; False when nothing is left to take back."""
        if not self._earlier:
            return False
        *earlier, (cooks, self.current) = self._earlier
        self._cooks, self._earlier, self.went_back = dict(cooks), tuple(earlier), True
        return True

    @property
    def earlier(self) -> tuple[Snapshot, ...]:
        """How it stood before each of the last tellings, oldest first."""
        return self._earlier

    def _told(self) -> dict[str, tuple]:
        return {name: (cook.situation.facts, cook.situation.moves, cook.steps_done) for name, cook in self._cooks.items()}

    def __getitem__(self, name: str) -> Cook:
        return self._cooks[name]

    @property
    def cook(self) -> Cook:
        """The one in hand."""
        return self._cooks[self.current]

    @property
    def names(self) -> tuple[str, ...]:
        return tuple(name for name in self._cooks if name)

    @property
    def all(self) -> tuple[Cook, ...]:
        """Every one, even that nothing is known of yet, in the order in which they were named."""
        return tuple(self._cooks.values())

    @property
    def cooks(self) -> tuple[Cook, ...]:
        """All that anything is known of, the one in hand first."""
        known = [cook for name, cook in self._cooks.items() if name or cook.situation.facts]
        return tuple(sorted(known, key=lambda cook: cook.name != self.current))

    def keep(self, cook: Cook) -> None:
        """Put a changed cook back under its name."""
        self._cooks[cook.name] = cook

    def switch(self, name: str) -> None:
        self.current = self.named(name)

    def named(self, name: str) -> str:
        """The name under which a cooker is kept; a new one is set up."""
        found = next((known for known in self._cooks if known and same_cooker(known, name)), None)
        if found is None:
            self._cooks[name] = self._take_unnamed(name) or Cook(name=name)
        return found or name

    def _take_unnamed(self, name: str) -> Cook | None:
        """The cook talked of before there were several: it is the first. None when `name` means another."""
        unnamed = self._cooks[""]
        if not (self.names and unnamed.situation.facts and same_cooker(name, "1")):
            return None
        self._cooks[""] = Cook()
        return replace(unnamed, name=name)

    def tell(self, name: str, facts: Mapping[str, Value], origin: Origin, rulebook: Rulebook, now: float) -> None:
        """Facts about one cooker; what holds for one message only is not kept, nor what was told of food thrown away."""
        passing = rulebook.vocabulary.for_one_message | {"cooker"}
        told = {fact: value for fact, value in facts.items() if fact not in passing}
        cook = self._cooks[name]
        thrown_away = facts.get(FOOD_THROWN) is True
        told |= {"food_on": False} if thrown_away else {}
        situation = cook.situation.tell(told, origin, rulebook.vocabulary, now)
        self.keep(replace(cook, situation=situation.without_food() if thrown_away else situation))

    def endangered(self) -> tuple[str, ...]:
        """The cookers that are not in hand and whose last reply held a danger that lasts."""
        return tuple(name for name, cook in self._cooks.items() if name != self.current and cook.endangered)

    def take_back(self, names: Iterable[str]) -> None:
        """What was last told of `names` about the cooker in hand was a slip."""
        facts = self.cook.situation.facts
        names = list(names)
        self.slips += tuple(Slip(self.current, name, facts[name].at_min) for name in names if name in facts)
        self.keep(replace(self.cook, situation=self.cook.situation.take_back(names)))

    def forget(self, names: Iterable[str]) -> None:
        """What was told of `names` about the cooker in hand holds no longer, and nobody knows what does."""
        self.keep(replace(self.cook, situation=self.cook.situation.take_back(names)))

    def unable(self, vent: str | None) -> None:
        """The step in hand, or that at `vent`, can't be done."""
        self.keep(self.cook.unable(vent))

    def decline(self, facts: Iterable[str]) -> None:
        """What can't be answered, or is not to be asked any more."""
        for fact in facts:
            self.keep(replace(self.cook, situation=self.cook.situation.decline(fact)))

    def do(self, numbers: Iterable[int], rulebook: Rulebook, now: float) -> None:
        self.keep(self.cook.do(numbers, rulebook, now))
