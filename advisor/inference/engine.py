"""The only module that knows durable_rules: a thin, careful adapter over its C matcher.

Facts are replayed into an empty engine state for every run and retracted afterwards, so nothing can go stale, leak or
be missed. What the matcher gets wrong (negation, alternatives, arithmetic, text) never reaches it.
"""

import json
import threading
from collections.abc import Callable, Iterable
from itertools import count

import durable_rules_engine

from advisor.errors import InferenceError
from advisor.facts import Value
from advisor.inference.guard import check_patterns
from advisor.inference.patterns import Pattern, Production, field_of

STATE = "0"             # one engine state, empty between runs, used under the lock
RUNS_PER_STATE = 5_000  # then a fresh one: making it costs as much as a run, so it is kept, but not for ever
OBSERVED = 2            # the matcher's code for a fact it believes to hold already
MOST_FIRINGS = 2_000    # far above any real run; a loop ends in an error, never in a hang
OPERATORS = {"<": "$lt", "<=": "$lte", ">": "$gt", ">=": "$gte", "!=": "$neq"}
_NAMES = count()


class Engine:
    """A compiled set of productions. `run` is a pure function of the facts given."""

    def __init__(self, productions: Iterable[Production]) -> None:
        self._productions = tuple(productions)
        check_patterns(self._productions)
        self._kinds = {pattern.kind for made in self._productions for pattern in made.patterns}
        self._lock = threading.Lock()
        self._state: int | None = None
        self._runs = self._asserted = 0
        rules = {"$open": {"all": [{"m0": {"t": "$open"}}], "pri": 0}}
        rules |= {made.name: _compile(made) for made in self._productions}
        self._handle = durable_rules_engine.create_ruleset(f"drafthand-{next(_NAMES)}", json.dumps(rules))

    def run(self, facts: Iterable[tuple[str, Value]], fire: Callable[[str], Iterable[tuple[str, Value]]]) -> None:
        """Match `facts`; for each activation in order call `fire(production name)`, which returns what it concludes.

        Raises InferenceError when more than MOST_FIRINGS activations come.
        """
        with self._lock:
            if self._state is None or self._runs >= RUNS_PER_STATE:
                self._renew()
            self._runs, self._asserted = self._runs + 1, 0
            try:
                self._match(facts, fire)
            except BaseException:
                self._drop()  # in the middle of a run: nothing of it may stay
                raise
            self._retract_all()

    def _match(self, facts: Iterable[tuple[str, Value]], fire: Callable[[str], Iterable[tuple[str, Value]]]) -> None:
        for kind, value in facts:
            self._assert(kind, value)
        started = durable_rules_engine.start_action_for_state(self._handle, self._state)
        message = started[1] if started else None
        for _ in range(MOST_FIRINGS):
            if not message:
                return
            for kind, value in fire(_production_of(message)):
                self._assert(kind, value)
            message = durable_rules_engine.complete_and_start_action(self._handle, self._state)
        raise InferenceError(f"the rules fired more than {MOST_FIRINGS} times", "they feed one another in a circle",
                             "run `drafthand rules check`")

    def _assert(self, kind: str, value: Value) -> None:
        if kind not in self._kinds:
            return  # no production asks for it
        self._asserted += 1
        fact = _encode(kind, value, self._asserted)
        if durable_rules_engine.assert_fact(self._handle, fact)[0] == OBSERVED:
            raise InferenceError(f"the matcher takes {fact} for one it has", "its conclusions could not be trusted",
                                 "ask again")

    def _retract_all(self) -> None:
        for number in range(1, self._asserted + 1):
            durable_rules_engine.retract_fact(self._handle, f'{{"id": "f{number}", "sid": "{STATE}"}}')

    def _renew(self) -> None:
        """A fresh state. One production is fired at once: a state in which nothing ever ran can't be deleted."""
        self._drop()
        _, self._state = durable_rules_engine.assert_event(self._handle, _encode("$open", None, 0))
        durable_rules_engine.start_action_for_state(self._handle, self._state)
        durable_rules_engine.complete_and_start_action(self._handle, self._state)

    def _drop(self) -> None:
        if self._state is not None:
            self._state, self._runs = None, 0
            durable_rules_engine.delete_state(self._handle, STATE)

    def __del__(self) -> None:
        if handle := getattr(self, "_handle", None):
            self._drop()  # a rule set deleted with a live state leaks it
            durable_rules_engine.delete_ruleset(handle)


def _production_of(message: str) -> str:
    """The name that an activation, {"<name>": {...}}, starts with; its facts are known without reading on."""
    return message[2:message.index('":')]


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
