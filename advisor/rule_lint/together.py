"""Whether two rules can fire in one and the same situation - shown by a situation in which a full run fires both."""

from collections.abc import Iterator
from itertools import chain, islice

from advisor.errors import DrafthandError
from advisor.facts import Value
from advisor.rule_lint.material import Material
from advisor.rule_lint.solving import proposals, ways
from advisor.rulebook.schema import Rule

MOST_TRIED = 40  # full runs spent on one pair of rules


def firing_both(one: Rule, other: Rule, material: Material) -> dict[str, Value] | None:
    """Told facts on which both fire, or None when none was found (or there is none)."""
    conditions = (*one.when, *other.when)
    if not ways(conditions, material):
        return None
    solved = (told for way in ways(conditions, material, findings=True) for told in proposals(way, material))
    tried = islice(chain(_merged_cases(one, other, material), solved), MOST_TRIED)
    return next((told for told in tried if _fires(told, (one, other), material)), None)


def _merged_cases(one: Rule, other: Rule, material: Material) -> Iterator[dict[str, Value]]:
    """What the authors wrote as cases of the two, laid over each other in both orders."""
    for here in _firing_cases(one, material):
        for there in _firing_cases(other, material):
            yield here | there
            yield there | here


def _firing_cases(rule: Rule, material: Material) -> tuple[dict[str, Value], ...]:
    cases = material.cases.get(rule.id)
    return cases.fires if cases else ()


def _fires(told: dict[str, Value], rules: tuple[Rule, ...], material: Material) -> bool:
    try:
        inference = material.infer(told)
    except DrafthandError:
        return False  # a case that can't be told is reported by its own check
    fired = {firing.rule.id for firing in inference.firings} if inference else set()
    return all(rule.id in fired for rule in rules)


def told_words(told: dict[str, Value]) -> str:
    """A situation as it would stand in a cases file."""
    return ", ".join(f"{name}: {value:g}" if isinstance(value, float) else f"{name}: {str(value).lower()}"
                     for name, value in told.items())
