"""A plain forward chainer to hold against the engine: try every rule until nothing changes, stratum by stratum.

It shares the rules and the conditions with the advisor and nothing else: no productions, no salience, no engine.
"""

import math
from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from advisor.conditions import Condition
from advisor.facts import Fact, Value
from advisor.rulebook.loader import Rulebook
from advisor.rulebook.schema import Rule

TRUST = {"said": 1.0, "measured": 1.0, "derived": 1.0, "learned": 0.9, "forecast": 0.8, "assumed": 0.6}
GRADES = {"possible": 0.2, "likely": 0.5, "certain": 0.85}


@dataclass
class Outcome:
    """facts: value by name; findings: certainty by id (0.2 and more); fired, blocked: rule ids."""

    facts: dict[str, Value]
    findings: dict[str, float] = field(default_factory=dict)
    fired: set[str] = field(default_factory=set)
    blocked: set[str] = field(default_factory=set)


class PlainMatcher:
    """A rule base ready to be chained through."""

    def __init__(self, rulebook: Rulebook) -> None:
        self._stages = [strata(rulebook.of("understand", "diagnose")), [rulebook.of("recover", "safety", "teach")]]

    def chain(self, given: Mapping[str, Fact]) -> Outcome:
        """All that follows from `given`."""
        out = Outcome({name: round(fact.value, 4) if isinstance(fact.value, float) else fact.value
                       for name, fact in given.items()})
        trust = {name: TRUST[fact.origin] for name, fact in given.items()}
        evidence: dict[str, list[float]] = {}
        for stage in self._stages:
            for stratum in stage:
                while sum(self._tried(rule, out, trust, evidence) for rule in stratum):
                    pass
            out.findings = {name: sure for name, found in evidence.items() if (sure := certainty(found)) >= 0.2}
        return out

    def _tried(self, rule: Rule, out: Outcome, trust: Mapping[str, float], evidence: dict[str, list[float]]) -> bool:
        """Whether the rule, tried once more, did anything."""
        if rule.id in out.fired or rule.id in out.blocked or not all(meets(c, out) for c in rule.when):
            return False
        if any(meets(c, out) for c in rule.unless):
            out.blocked.add(rule.id)
            return True
        out.fired.add(rule.id)
        weakest = min(trust.get(c.fact, 1.0) for c in rule.when)
        for finding, weight in (rule.then.points_to or {}).items():
            evidence.setdefault(finding, []).append(weight * weakest)
        for name, value in (rule.then.know or {}).items():
            out.facts.setdefault(name, value)
        return True


def meets(condition: Condition, out: Outcome) -> bool:
    """Whether the condition is known to hold."""
    if condition.fact in out.facts:
        return condition.holds(out.facts[condition.fact]) is True
    sure = out.findings.get(condition.fact)
    return sure is not None and sure >= min(GRADES[str(grade)] for grade in condition.one_of)


def certainty(weights: Iterable[float]) -> float:
    """Certainty factors written as products: for and against each as 1 - prod(1 - w), then mixed."""
    weights = list(weights)
    plus = 1 - math.prod(1 - w for w in weights if w > 0)
    minus = 1 - math.prod(1 + w for w in weights if w < 0)
    if plus and minus:
        plus, minus = min(plus, 0.99), min(minus, 0.99)
        return round((plus - minus) / (1 - min(plus, minus)), 4)
    return round(min(plus, 0.99) - min(minus, 0.99), 4)


def strata(rules: Iterable[Rule]) -> list[list[Rule]]:
    """Rules in groups, so that whatever a rule's `unless` names is settled in an earlier group."""
    rules, place, moved = list(rules), defaultdict(int), True
    while moved:
        moved = False
        for rule in rules:
            for maker in (maker for maker in rules if maker.then.know):
                later = bool(maker.then.know.keys() & {c.fact for c in rule.unless})
                if later or maker.then.know.keys() & {c.fact for c in rule.when}:
                    moved |= place[rule.id] < place[maker.id] + later
                    place[rule.id] = max(place[rule.id], place[maker.id] + later)
    return [[rule for rule in rules if place[rule.id] == level] for level in range(max(place.values(), default=0) + 1)]
