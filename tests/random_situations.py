"""Situations at random: told facts drawn from the vocabulary, thick round the bounds that rules ask about."""

from collections import defaultdict
from collections.abc import Iterator
from random import Random

from advisor.conditions import NUMBER_TESTS
from advisor.facts import Origin, Value
from advisor.rulebook.loader import Rulebook

FEWEST, MOST = 1, 14
ORIGINS: tuple[Origin, ...] = ("said", "measured", "assumed")


class RandomSituations:
    """told(random) gives facts with values that may stand, and one origin for all of them."""

    def __init__(self, rulebook: Rulebook) -> None:
        self._vocabulary = rulebook.vocabulary
        self._bounds: dict[str, set[float]] = defaultdict(set)
        asked: dict[str, int] = defaultdict(int)
        for rule in rulebook.rules:
            for condition in (*rule.when, *rule.unless):
                asked[condition.fact] += 1
                self._bounds[condition.fact] |= {bound for test in NUMBER_TESTS
                                                 if (bound := getattr(condition, test)) is not None}
        self._names = sorted(rulebook.vocabulary.told)
        self._often = [1 + asked[name] for name in self._names]

    def told(self, random: Random) -> tuple[dict[str, Value], Origin]:
        names = set(random.choices(self._names, self._often, k=random.randint(FEWEST, MOST)))
        return {name: self._value(name, random) for name in sorted(names)}, random.choice(ORIGINS)

    def many(self, number: int, seed: int) -> Iterator[tuple[dict[str, Value], Origin]]:
        random = Random(seed)
        return (self.told(random) for _ in range(number))

    def _value(self, name: str, random: Random) -> Value:
        fact = self._vocabulary[name]
        if fact.type == "flag":
            return random.random() < 0.6
        if not fact.is_number:
            return random.choice(fact.values) if fact.values else "something"
        low, high = fact.bounds
        near = sorted(self._bounds[name])
        value = (random.choice(near) + random.choice((-1, -0.01, 0, 0, 0.01, 1)) if near and random.random() < 0.7
                 else random.uniform(max(low, -50), min(high, 700)))
        return round(min(max(value, low), high), 3)
