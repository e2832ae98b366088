"""One condition on one fact. Three answers: True, False, and None when the fact is unknown.

Unknown is neither true nor false: a condition on an unknown fact does not hold, and its negation does not hold either.
"""

from dataclasses import dataclass
from typing import Any

from advisor.facts import Value

NUMBER_TESTS = ("at_least", "above", "at_most", "below")


@dataclass(frozen=True, slots=True)
class Condition:
    """What a rule asks of one fact.

    fact:     its name (or a finding's id)
    one_of:   allowed values, () when any
    none_of:  values it must differ from (and be known)
    at_least, above, at_most, below: bounds for numbers, in the fact's own unit
    """

    fact: str
    one_of: tuple[Value, ...] = ()
    none_of: tuple[Value, ...] = ()
    at_least: float | None = None
    above: float | None = None
    at_most: float | None = None
    below: float | None = None

    def holds(self, value: Value | None) -> bool | None:
        """Whether `value` meets it; None when the value is unknown."""
        if value is None:
            return None
        if self.one_of and value not in self.one_of:
            return False
        if value in self.none_of:
            return False
        return self._within(value)

    def _within(self, value: Value) -> bool:
        return ((self.at_least is None or value >= self.at_least) and (self.above is None or value > self.above)
                and (self.at_most is None or value <= self.at_most) and (self.below is None or value < self.below))

    def excludes(self, other: "Condition") -> bool:
        """Whether no value at all can meet both (same fact)."""
        if self.one_of:
            return not any(other.holds(value) for value in self.one_of)
        if other.one_of:
            return not any(self.holds(value) for value in other.one_of)
        return self._ends_below(other) or other._ends_below(self)

    def _ends_below(self, other: "Condition") -> bool:
        tops = [bound for bound in (self.at_most, self.below) if bound is not None]
        bottoms = [bound for bound in (other.at_least, other.above) if bound is not None]
        if not tops or not bottoms:
            return False
        top, bottom = min(tops), max(bottoms)
        open_end = top == self.below or bottom == other.above
        return top < bottom or (top == bottom and open_end)

    def __str__(self) -> str:
        words = [f"is {' or '.join(_word(v) for v in self.one_of)}"] if self.one_of else []
        words += [f"is not {' or '.join(_word(v) for v in self.none_of)}"] if self.none_of else []
        words += [f"{test.replace('_', ' ')} {getattr(self, test):g}"
                  for test in NUMBER_TESTS if getattr(self, test) is not None]
        return f"{self.fact} {' and '.join(words) or 'is known'}"


def _word(value: Value) -> str:
    return f"{value:g}" if isinstance(value, float) else str(value).lower()


def parse_condition(fact: str, written: Any) -> Condition:
    """A condition as it stands in a rule file: a value, a list of values, or a mapping of tests.

    Raises ValueError saying what is allowed.
    """
    if isinstance(written, list):
        return Condition(fact, one_of=tuple(_number(v) for v in written))
    if not isinstance(written, dict):
        return Condition(fact, one_of=(_number(written),))
    unknown = set(written) - {*NUMBER_TESTS, "not", "known"}
    if unknown or not written:
        raise ValueError(f"no test {', '.join(sorted(map(str, unknown))) or 'given'}; "
                         f"allowed are {', '.join(NUMBER_TESTS)}, not, known")
    if "known" in written and written["known"] is not True:
        raise ValueError("known can only be true; for the opposite write the fact under `unless`")
    bounds = {test: _bound(test, written[test]) for test in NUMBER_TESTS if test in written}
    banned = written.get("not", [])
    banned = banned if isinstance(banned, list) else [banned]
    return Condition(fact, none_of=tuple(_number(v) for v in banned), **bounds)


def _number(value: Any) -> Value:
    if isinstance(value, bool | str):
        return value
    if isinstance(value, int | float):
        return float(value)
    raise ValueError(f"{'nothing' if value is None else repr(value)} is no value; "
                     "write a number, a word, true or false")


def _bound(test: str, value: Any) -> float:
    if isinstance(value, int | float) and not isinstance(value, bool):
        return float(value)
    raise ValueError(f"{test} needs a number, not {'nothing' if value is None else repr(value)}")


def parse_conditions(written: Any) -> tuple[Condition, ...]:
    """A mapping of facts to what they must be. Raises ValueError saying what is allowed."""
    if not isinstance(written, dict) or not written:
        raise ValueError("write facts with what they must be, such as over_f: {at_least: 75}")
    return tuple(_named(str(fact), test) for fact, test in written.items())


def _named(fact: str, written: Any) -> Condition:
    try:
        return parse_condition(fact, written)
    except ValueError as error:
        raise ValueError(f"{fact}: {error}") from None
