"""The vocabulary: every fact's type, bounds, allowed values, question and words, read from rules/vocabulary.yaml.

It knows nothing of rules. `check` is the one gate through which every value enters a situation.
"""

import math
from functools import cached_property
from pathlib import Path
from typing import Annotated, Any, Literal

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field, ValidationError

from advisor.conditions import Condition, parse_conditions
from advisor.errors import UnknownName, ValueRefused
from advisor.facts import Value
from advisor.suggestions import did_you_mean
from advisor.yamlfile import read_yaml, refusal

FactType = Literal["temperature", "difference", "minutes", "rate", "fraction", "count", "inches", "kilograms", "feet",
                   "flag", "choice", "text"]
NATURAL_BOUNDS = {"minutes": (0.0, 100_000.0), "fraction": (0.0, 1.0), "count": (0.0, 1000.0)}
UNIT_NAMES = {"temperature": "°F", "difference": "°F", "minutes": "min", "rate": "°F/min", "inches": "in",
              "kilograms": "kg", "feet": "ft"}
LONGEST_TEXT = 200


class Answer(BaseModel):
    """One likely answer to a question, and how often it is the answer (0..1)."""

    model_config = ConfigDict(extra="forbid", frozen=True)
    value: bool | float | str
    share: float = Field(gt=0, le=1)


class Question(BaseModel):
    """How a fact is asked for. from_afar: nobody has to go near the cooker to answer, and it matters to whoever keeps off."""

    model_config = ConfigDict(extra="forbid", frozen=True)
    says: str
    choices: tuple[str, ...] = ()
    answers: tuple[Answer, ...]
    from_afar: bool = False


class FactDefinition(BaseModel):
    """What a name means. `low`/`high` in the fact's own unit; `words` is read by advisor/language alone.

    worked_out_from: facts that arithmetic makes it of (advisor/derivation.py).
    fades_min: minutes after which a telling says nothing about now any more.
    replaces: facts told earlier that a new telling of this one ends; change_ends: those that only another value ends.
    ended_by: conditions on newly told facts that turn a true flag false.
    taken_as: for values of this fact, what another one is taken to be while nobody tells it (advisor/derivation.py).
    """

    model_config = ConfigDict(extra="forbid", frozen=True)
    type: FactType
    says: str
    low: float | None = None
    high: float | None = None
    values: tuple[str, ...] = ()
    clock: Literal["grows", "falls", "stands"] = "stands"
    lasts: Literal["cook", "message"] = "cook"
    extra: bool = False
    worked_out_from: tuple[str, ...] = ()
    fades_min: float | None = None
    replaces: tuple[str, ...] = ()
    change_ends: tuple[str, ...] = ()
    ended_by: Annotated[tuple[Condition, ...], BeforeValidator(parse_conditions)] = ()
    taken_as: dict[str, dict[str, float]] = {}
    ask: Question | None = None
    words: Any = None

    @property
    def is_number(self) -> bool:
        return self.type not in ("flag", "choice", "text")

    @property
    def bounds(self) -> tuple[float, float]:
        low, high = NATURAL_BOUNDS.get(self.type, (-math.inf, math.inf))
        return (low if self.low is None else self.low, high if self.high is None else self.high)

    def check(self, name: str, value: Any) -> Value:
        """`value` as this fact keeps it; raises ValueRefused with the allowed range or values."""
        if self.is_number:
            return self._check_number(name, value)
        if self.type == "flag":
            if isinstance(value, bool):
                return value
            raise ValueRefused(f"{name} was given as {value!r}", "it is true or false", "send true or false")
        if not isinstance(value, str):
            raise ValueRefused(f"{name} was given as {value!r}", "it is a word", "send text")
        if self.type == "text":
            return value[:LONGEST_TEXT]
        if value in self.values:
            return value
        raise ValueRefused(f"{name} was given as {value[:40]!r}", "that is not one of its values",
                           did_you_mean(value, self.values))

    def _check_number(self, name: str, value: Any) -> float:
        low, high = self.bounds
        if isinstance(value, bool) or not isinstance(value, int | float):
            raise ValueRefused(f"{name} was given as {value!r}", "it is a number", "send a plain number")
        if not math.isfinite(value):
            raise ValueRefused(f"{name} was given as {value}", "that is no reading", "send a plain number")
        if not low <= value <= high:
            unit = UNIT_NAMES.get(self.type, "")
            raise ValueRefused(f"{name} was given as {value:g} {unit}".rstrip(),
                               f"it can only lie between {low:g} and {high:g}", "read it again and send that")
        return float(value)


class Vocabulary:
    """All facts by name: those that may be told and those that are derived."""

    def __init__(self, told: dict[str, FactDefinition], derived: dict[str, FactDefinition]) -> None:
        self.told, self.derived = told, derived
        self.all = {**told, **derived}

    def __contains__(self, name: str) -> bool:
        return name in self.all

    def __getitem__(self, name: str) -> FactDefinition:
        """Raises UnknownName with the nearest spelling."""
        try:
            return self.all[name]
        except KeyError:
            raise UnknownName(f"there is no fact {name!r}", "", did_you_mean(name, self.all)) from None

    def check(self, name: str, value: Any) -> Value:
        return self[name].check(name, value)

    @cached_property
    def askable(self) -> frozenset[str]:
        return frozenset(name for name, fact in self.told.items() if fact.ask)

    @cached_property
    def counted(self) -> frozenset[str]:
        """Facts that arithmetic makes others of."""
        return frozenset(name for fact in self.all.values() for name in fact.worked_out_from)

    @cached_property
    def standing_in(self) -> frozenset[str]:
        """Facts whose values stand for figures of others (`taken_as`)."""
        return frozenset(name for name, fact in self.told.items() if fact.taken_as)

    @cached_property
    def for_one_message(self) -> frozenset[str]:
        return frozenset(name for name, fact in self.told.items() if fact.lasts == "message")


def read_vocabulary(path: Path) -> Vocabulary:
    """The vocabulary of one file. Raises RuleFileError with file, line and nearest spelling."""
    data = read_yaml(path) or {}
    try:
        file = _File.model_validate(data)
    except ValidationError as error:
        raise refusal(path, error, FactDefinition.model_fields) from None
    return Vocabulary(file.facts, file.derived)


class _File(BaseModel):
    model_config = ConfigDict(extra="forbid")
    facts: dict[str, FactDefinition]
    derived: dict[str, FactDefinition]
