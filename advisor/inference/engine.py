"""The only module that knows durable_rules: a thin, careful adapter over its C matcher.

Facts are replayed into a fresh engine state for every run and the state is deleted afterwards, so nothing can go
stale, leak or be missed. What the matcher gets wrong (negation, alternatives, arithmetic, text) never reaches it.
"""

import json
import threading
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from itertools import count

import durable_rules_engine

from advisor.errors import InferenceError
from advisor.facts import Value
from advisor.inference.guard import check_patterns

STATE = "0"             # one engine state, made and deleted within a run, under the lock
MOST_FIRINGS = 2_000    # far above any real run; a loop ends in an error, never in a hang
OPERATORS = {"<": "$lt", "<=": "$lte", ">": "$gt", ">=": "$gte", "!=": "$neq"}
_NAMES = count()


@dataclass(frozen=True, slots=True)
class Test:
    """One comparison inside a pattern; field is n (number), s (word) or b (flag)."""

    field: str
    operator: str
    constant: Value


@dataclass(frozen=True, slots=True)
class Pattern:
    """One fact a production needs: its kind (the fact's name) and the tests on it."""

    kind: str
    tests: tuple[Test, ...]


@dataclass(frozen=True, slots=True)
class Production:
    """One conjunctive rule as the matcher sees it. Lower salience fires first."""

    name: str
    salience: int
    patterns: tuple[Pattern, ...]


class Engine:
    """A compiled set of productions. `run` is a pure function of the facts given."""

    def __init__(self, productions: Iterable[Production]) -> None:
        self._productions = tuple(productions)
        check_patterns(self._productions)
        self._kinds = {pattern.kind for made in self._productions for pattern in made.patterns}
        self._lock = threading.Lock()
        rules = {"$open": {"all": [{"m0": {"t": "$open"}}], "pri": 0}}
        rules |= {made.name: _compile(made) for made in self._productions}
        self._handle = durable_rules_engine.create_ruleset(f"drafthand-{next(_NAMES)}", json.dumps(rules))

    def run(self, facts: Iterable[tuple[str, Value]], fire: Callable[[str], Iterable[tuple[str, Value]]]) -> None:
        """Match `facts`; for each activation in order call `fire(production name)`, which returns what it concludes.

        Raises InferenceError when more than MOST_FIRINGS activations come.
        """
        with self._lock:
            try:
                self._run(facts, fire)
            finally:
                durable_rules_engine.delete_state(self._handle, STATE)

    def _run(self, facts: Iterable[tuple[str, Value]], fire: Callable[[str], Iterable[tuple[str, Value]]]) -> None:
        numbers = count(1)
        state = self._open()
        for kind, value in facts:
            self._assert(kind, value, next(numbers))
        started = durable_rules_engine.start_action_for_state(self._handle, state)
        message = started[1] if started else None
        for _ in range(MOST_FIRINGS):
            if not message:
                return
            for kind, value in fire(next(iter(json.loads(message)))):
                self._assert(kind, value, next(numbers))
            message = durable_rules_engine.complete_and_start_action(self._handle, state)
        raise InferenceError(f"the rules fired more than {MOST_FIRINGS} times", "they feed one another in a circle",
                             "run `drafthand rules check`")

    def _open(self) -> int:
        """Fire one production at once: a state in which nothing ever ran can't be deleted without a crash."""
        _, state = durable_rules_engine.assert_event(self._handle, _encode("$open", None, 0))
        durable_rules_engine.start_action_for_state(self._handle, state)
        durable_rules_engine.complete_and_start_action(self._handle, state)
        return state

    def _assert(self, kind: str, value: Value, number: int) -> None:
        if kind in self._kinds:
            durable_rules_engine.assert_fact(self._handle, _encode(kind, value, number))

    def __del__(self) -> None:
        if handle := getattr(self, "_handle", None):
            durable_rules_engine.delete_ruleset(handle)


def field_of(value: Value | None) -> str:
    """Which field of an engine fact carries a value of this type."""
    if isinstance(value, bool):
        return "b"
    return "n" if isinstance(value, float) else "s"


def _encode(kind: str, value: Value | None, number: int) -> str:
    carried = "" if value is None else f', "{field_of(value)}": {_constant(value)}'
    return f'{{"t": {json.dumps(kind)}{carried}, "u": 1, "id": "f{number}", "sid": "{STATE}"}}'


def _constant(value: Value) -> str:
    """JSON the matcher reads rightly: it takes no exponents, so numbers are written out in full."""
    return f"{value:.4f}" if isinstance(value, float) else json.dumps(value)


def _compile(made: Production) -> dict:
    return {"all": [{f"m{i}": {"$and": _conjunction(pattern, i)}} for i, pattern in enumerate(made.patterns)],
            "pri": made.salience}


def _conjunction(pattern: Pattern, position: int) -> list[dict]:
    parts: list[dict] = [{"t": pattern.kind}]
    for test in pattern.tests:
        constant = float(_constant(test.constant)) if isinstance(test.constant, float) else test.constant
        plain = {test.field: constant}
        parts.append(plain if test.operator == "==" else {OPERATORS[test.operator]: plain})
    if position:  # an always-true join must stand last, or the matcher reads past its end when the last one is false
        parts.append({"u": {"m0": "u"}})
    return parts
