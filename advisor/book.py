"""The facts of one situation while arithmetic adds to them. Judges nothing."""

from collections.abc import Callable, Mapping

from advisor.facts import Fact, Origin, Value
from advisor.vocabulary import Vocabulary


class Book:
    """The facts gathered so far; `put` never overrides what was told."""

    def __init__(self, known: dict[str, Fact], vocabulary: Vocabulary, now: float) -> None:
        self.known, self._vocabulary, self.now = known, vocabulary, now

    def number(self, name: str) -> float | None:
        return number(self.known, name)

    def put(self, name: str, value: Value | None, origin: Origin = "derived") -> None:
        if value is None or name in self.known or name not in self._vocabulary:
            return  # a rule base may do without some of these facts
        if isinstance(value, int) and not isinstance(value, bool):
            value = float(value)  # minutes may come whole; rules compare numbers of one kind
        low, high = self._vocabulary[name].bounds
        if isinstance(value, float) and not low <= value <= high:
            return  # arithmetic on believable numbers gave an unbelievable one: better unknown
        self.known[name] = Fact(name, value, origin, self.now)

    def both(self, one: str, other: str, rule: Callable[[float, float], float]) -> float | None:
        first, second = self.number(one), self.number(other)
        return None if first is None or second is None else rule(first, second)


def holds(known: Mapping[str, Fact], name: str) -> bool:
    """Whether a flag is known to be true."""
    return name in known and known[name].value is True


def number(known: Mapping[str, Fact], name: str) -> float | None:
    fact = known.get(name)
    return float(fact.value) if fact and not isinstance(fact.value, bool | str) else None
