"""Checks that everything a rule names exists and that values fit: facts, findings, acts, parameters, cautions."""

import re
from collections.abc import Iterable
from typing import Any

from advisor.errors import UnknownName, ValueRefused
from advisor.rulebook.catalogue import Act, Catalogue
from advisor.conditions import Condition
from advisor.rulebook.schema import FINDING_GRADES, Amount, Rule, Step
from advisor.suggestions import did_you_mean
from advisor.vocabulary import Vocabulary

PLACEHOLDER = re.compile(r"\{([a-z_]+)(?:\|[^}]*)?\}")
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
        if not vocabulary[fact].ask:
            raise UnknownName(f"{fact!r} has no question", "", "give it an `ask` in vocabulary.yaml")
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
    for value in (*condition.one_of, *condition.none_of):
        _check_value(vocabulary, name, value)
    definition = vocabulary[name]
    if not definition.is_number and any(getattr(condition, test) is not None
                                        for test in ("at_least", "above", "at_most", "below")):
        raise UnknownName(f"{name!r} is no number", "", "write the value it must have")


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
        _check_amounts((vocabulary[fact] and bound for bound in bounds.values()), vocabulary)
    _check_amounts((step.wait_min,), vocabulary)
    _check_placeholders((step.says,), (*step.parameters, "wait_min"), vocabulary)


def _check_parameter(act: Act, name: str, value: Any, vocabulary: Vocabulary) -> None:
    wanted = act.params[name]
    if isinstance(value, dict):
        _check_amounts((Amount.model_validate(value),), vocabulary)
    elif wanted.values and value not in wanted.values:
        raise UnknownName(f"{name} is {value!r}", "", did_you_mean(str(value), wanted.values))
    elif not wanted.values and not wanted.low <= value <= wanted.high:
        raise UnknownName(f"{name} is {value!r}", f"it lies between {wanted.low:g} and {wanted.high:g}", "correct it")


def _check_amounts(amounts: Iterable[Any], vocabulary: Vocabulary) -> None:
    for amount in amounts:
        if isinstance(amount, Amount) and not vocabulary[amount.from_].is_number:
            raise UnknownName(f"{amount.from_!r} is no number", "", "take a number from it")


def _check_placeholders(texts: Iterable[str], parameters: Iterable[str], vocabulary: Vocabulary) -> None:
    for text in texts:
        for name in PLACEHOLDER.findall(text):
            if name not in parameters:
                vocabulary[name]
