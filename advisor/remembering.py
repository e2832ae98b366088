"""What a conversation knows, as plain data that JSON can hold, and back. New fields of a cook come along by themselves.

Data written by an older or newer program, or under other rules, gives back all of it that still means something.
"""

import copy
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from functools import cache
from typing import Any

from pydantic import TypeAdapter, ValidationError

from advisor.cook import Cook
from advisor.errors import DrafthandError
from advisor.facts import Fact
from advisor.rulebook.loader import Rulebook
from advisor.stand import Stand
from advisor.units import UnitStyle


@dataclass(frozen=True, slots=True)
class Standing:
    """How a stand stood: the numbers of its cooks, and the name of the one in hand."""

    cooks: tuple[str, ...] = ()
    current: str = ""


@dataclass(frozen=True, slots=True)
class Remembered:
    """cooks: each that stands or stood, by a number, once; units: those the person speaks in."""

    cooks: dict[str, Cook] = field(default_factory=dict)
    now: Standing = Standing()
    earlier: tuple[Standing, ...] = ()
    units: UnitStyle | None = None


def remember(stand: Stand, units: UnitStyle | None) -> dict[str, Any]:
    """All that a conversation needs to go on, as JSON data."""
    numbers: dict[int, str] = {}
    pool: dict[str, Cook] = {}

    def number(cook: Cook) -> str:
        known = numbers.setdefault(id(cook), str(len(numbers)))
        pool[known] = cook
        return known

    def standing(cooks: Iterable[Cook], current: str) -> Standing:
        return Standing(tuple(number(cook) for cook in cooks), current)

    now = standing(stand.all, stand.current)
    earlier = tuple(standing(cooks.values(), current) for cooks, current in stand.earlier)
    return _in_order(_shape().dump_python(Remembered(pool, now, earlier, units)))


def _in_order(data: Any) -> Any:
    """As JSON holds it, sets sorted: their own order is another in every process, and the same talk must be the same data."""
    if isinstance(data, dict):
        return {key: _in_order(value) for key, value in data.items()}
    if isinstance(data, list | tuple):
        return [_in_order(item) for item in data]
    return sorted(data) if isinstance(data, set | frozenset) else data


def recall(data: Mapping[str, Any], rulebook: Rulebook) -> tuple[Stand, UnitStyle | None]:
    """The stand and units that `remember` made `data` of; what these rules don't know, or nobody can read, is left out."""
    read = _read(data)
    pool = {number: _still_known(cook, rulebook) for number, cook in read.cooks.items()}

    def cooks(standing: Standing) -> list[Cook]:
        return [pool[number] for number in standing.cooks if number in pool]

    earlier = [({cook.name: cook for cook in [Cook(), *cooks(standing)]}, standing.current) for standing in read.earlier]
    usable = [(known, current) for known, current in earlier if current in known]
    return Stand(cooks(read.now), read.now.current, usable), read.units


@cache
def _shape() -> TypeAdapter[Remembered]:
    return TypeAdapter(Remembered)  # takes milliseconds to make, and `ask` needs none


def _read(data: Mapping[str, Any]) -> Remembered:
    """The data as far as it can be read: what is wrong in it goes, and only that."""
    mended: Any = data
    while True:
        try:
            return _shape().validate_python(mended)
        except ValidationError as error:
            mended = _without(mended, error.errors(include_url=False)[0]["loc"])


def _without(data: Any, path: tuple[str | int, ...]) -> Any:
    """A copy of `data` without the innermost thing on `path` that is there."""
    copied = holder = copy.deepcopy(data)
    within: tuple[Any, Any] | None = None
    for key in path:
        if not (isinstance(holder, dict) and key in holder or isinstance(holder, list) and key in range(len(holder))):
            break
        within, holder = (holder, key), holder[key]
    if within is None:
        return {}
    del within[0][within[1]]
    return copied


def _still_known(cook: Cook, rulebook: Rulebook) -> Cook:
    """The cook without facts, steps and questions that the rules have no more."""
    facts = {name: fact for name, fact in cook.situation.facts.items() if _stands(fact, rulebook)}
    steps = tuple(step for step in cook.steps if step.act in rulebook.catalogue.acts)
    asked = cook.asked if cook.asked and cook.asked.fact in rulebook.vocabulary else None
    return replace(cook, situation=replace(cook.situation, facts=facts), steps=steps, asked=asked)


def _stands(fact: Fact, rulebook: Rulebook) -> bool:
    try:
        rulebook.vocabulary.check(fact.name, fact.value)
    except DrafthandError:
        return False
    return True
