"""Checks that everything a rule names exists and that values fit: facts, findings, acts, parameters, cautions."""

import re
from collections.abc import Iterable
from typing import Any

from pydantic import ValidationError

from advisor.conditions import NUMBER_TESTS, Condition
from advisor.errors import UnknownName, ValueRefused
from advisor.rulebook.catalogue import Act, Catalogue
from advisor.rulebook.schema import FINDING_GRADES, Amount, Rule, Step
from advisor.suggestions import did_you_mean
from advisor.vocabulary import Vocabulary
from advisor.yamlfile import first_complaint

PLACEHOLDER = re.compile(r"\{(\w+)(?:\|[^}]*)?\}")
LONGEST_WAIT_MIN = 1440.0
TEXTS = ("tell", "works_if", "if_not")


def check_names(rule: Rule, vocabulary: Vocabulary, catalogue: Catalogue) -> None:
    """Raises UnknownName for the first name nobody has defined, with the nearest spelling."""
    for condition in (*rule.when, *rule.unless):
        _check_condition(condition, rule, vocabulary, catalogue)
    for fact, value in (rule.then.know or {}).items():
        _check_value(vocabulary, fact, value)
    for finding in rule.then.points_to or {}:
        catalogue.known("findings", finding)
    for caution in rule.then.warn or ():
        catalogue.known("cautions", caution)
    for fact in rule.file.ask_if_unknown:
        if fact in vocabulary.told and not (vocabulary[fact].ask or vocabulary[fact].worked_out_from):
            raise UnknownName(f"{fact!r} has no question", "", "give it an `ask` in vocabulary.yaml")
        vocabulary[fact]
    for step in rule.then.steps or ():
        _check_step(step, vocabulary, catalogue)
    _check_placeholders((getattr(rule.then, key) or "" for key in TEXTS), (), vocabulary)


def _check_condition(condition: Condition, rule: Rule, vocabulary: Vocabulary, catalogue: Catalogue) -> None:
    name = condition.fact
    if "-" in name or name in catalogue.findings:
        catalogue.known("findings", name)
        if rule.folder in ("understand", "diagnose"):
            raise UnknownName(f"the finding {name!r} stands in a rule of {rule.folder}/", "findings are not known yet "
                              "when these rules fire", "use a fact, or move the rule to recover/ or safety/")
        if not condition.one_of or set(condition.one_of) - set(FINDING_GRADES):
            raise UnknownName(f"{name!r} is a finding", "", f"say how sure: {', '.join(FINDING_GRADES)}")
        return
    bounds = [bound for test in NUMBER_TESTS if (bound := getattr(condition, test)) is not None]
    if bounds and not vocabulary[name].is_number:
        raise UnknownName(f"{name!r} is no number", "", "write the value it must have")
    for value in (*condition.one_of, *condition.none_of, *bounds):
        _check_value(vocabulary, name, value)


def _check_value(vocabulary: Vocabulary, name: str, value: Any) -> None:
    try:
        vocabulary.check(name, value)
    except ValueRefused as error:
        raise UnknownName(error.seen, error.matters, error.remedy) from None


def _check_step(step: Step, vocabulary: Vocabulary, catalogue: Catalogue) -> None:
    act: Act = catalogue.known("acts", step.act)
    for name, value in step.parameters.items():
        if name not in act.params:
            raise UnknownName(f"{step.act} has no parameter {name!r}", "", did_you_mean(name, act.params))
        _check_parameter(act, name, value, vocabulary)
    missing = [name for name, param in act.params.items() if param.required and name not in step.parameters]
    if missing:
        raise UnknownName(f"{step.act} lacks {missing[0]!r}", "", "add it")
    for fact, bounds in (step.when or {}).items():
        if not vocabulary[fact].is_number:
            raise UnknownName(f"{fact!r} is no number", "a step waits for a reading", "name a number")
        for bound in bounds.values():
            _check_number(bound, fact, vocabulary[fact].bounds, vocabulary)
    if step.wait_min is not None:
        _check_number(step.wait_min, "wait_min", (0.0, LONGEST_WAIT_MIN), vocabulary)
    _check_placeholders((step.says,), (*step.parameters, "wait_min"), vocabulary)


def _check_parameter(act: Act, name: str, value: Any, vocabulary: Vocabulary) -> None:
    wanted = act.params[name]
    if not wanted.values:
        _check_number(value, name, (wanted.low, wanted.high), vocabulary)
    elif value not in wanted.values:
        raise UnknownName(f"{name} is {value!r}", "", did_you_mean(str(value), wanted.values))


def _check_number(value: Any, name: str, bounds: tuple[float, float], vocabulary: Vocabulary) -> None:
    """A figure within its bounds, or an amount taken from a fact that is a number."""
    if isinstance(value, dict):
        value = _amount(value, name)
    if isinstance(value, Amount):
        if not vocabulary[value.from_].is_number:
            raise UnknownName(f"{value.from_!r} is no number", "", "take a number from it")
        value = value.otherwise
        if value is None:
            return
    if isinstance(value, bool) or not isinstance(value, int | float) or not bounds[0] <= value <= bounds[1]:
        raise UnknownName(f"{name!r} is {value!r}", f"it is a number between {bounds[0]:g} and {bounds[1]:g}",
                          "correct it, or take it from a fact: {from: name-of-a-fact}")


def _amount(written: dict, name: str) -> Amount:
    try:
        return Amount.model_validate(written)
    except ValidationError as error:
        key = first_complaint(error)["loc"][0]
        raise UnknownName(f"{name!r} has an amount with {key!r}", "an amount reads {from: fact, plus: 5, otherwise: 0}",
                          did_you_mean(str(key), ("from", "plus", "otherwise"))) from None


def _check_placeholders(texts: Iterable[str], parameters: Iterable[str], vocabulary: Vocabulary) -> None:
    for text in texts:
        for name in PLACEHOLDER.findall(text):
            if name not in parameters:
                vocabulary[name]
