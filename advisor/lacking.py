"""Which facts, if only they were known, would let more rules speak: the candidates for a question.

A rule is in reach when something known speaks for it, nothing known speaks against it, and only unknown facts are
missing. A missing fact that rules derive is traced back to the told facts it would follow from.
"""

from collections import Counter
from collections.abc import Container, Iterable, Iterator

from advisor.conditions import Condition
from advisor.facts import Value
from advisor.inference.records import Inference
from advisor.rulebook.loader import Rulebook
from advisor.rulebook.schema import FINDING_GRADES, STANDINGS, Rule

DEEPEST = 3          # how far a missing derived fact is traced back through rules
WANTED = 4.0         # a fact that the procedure followed wants to know counts as much as four rules in reach
MOST_MISSING = 2     # a rule that lacks more than this is not in reach of one question


def candidates(rulebook: Rulebook, inference: Inference, followed: Container[str] = ()) -> list[str]:
    """Askable facts by how much they might open, most first. `followed`: ids of the rules the plan follows."""
    weights: Counter[str] = Counter()
    settled = {firing.rule.id for firing in inference.firings} | {blocked.rule.id for blocked in inference.blocked}
    for firing in inference.firings:
        for wanted in firing.rule.file.ask_if_unknown:
            if inference.value(wanted) is None:
                for fact, depth in _behind(Condition(wanted), rulebook, inference, 1):
                    weights[fact] += (WANTED if firing.rule.id in followed else 1.0) / depth
    touched = {rule.id: rule for name in inference.values for rule in rulebook.asking.get(name, ())}
    for rule in touched.values():
        if rule.id not in settled and not _says_nothing_new(rule, inference) and in_reach(rule, inference):
            for fact, depth in _askable_behind(rule, rulebook, inference):
                weights[fact] += _weight(rule) / depth
    return [fact for fact, _ in sorted(weights.items(), key=lambda pair: (-pair[1], pair[0]))]


def has_effect(fact: str, value: Value, rulebook: Rulebook, inference: Inference) -> bool:
    """Whether knowing `fact` to be `value` could change anything: a rule would fire, or one that fired be barred."""
    if fact in rulebook.vocabulary.counted:
        return True
    fired = {firing.rule.id for firing in inference.firings}
    if any(rule.id in fired and _met(rule.unless, fact, value) for rule in rulebook.barred_by.get(fact, ())):
        return True
    return any(_met(rule.when, fact, value) and all(holds(condition, inference) for condition in rule.when
                                                    if condition.fact != fact)
               for rule in rulebook.asking.get(fact, ()))


def _met(conditions: Iterable[Condition], fact: str, value: Value) -> bool:
    return any(condition.holds(value) for condition in conditions if condition.fact == fact)


def in_reach(rule: Rule, inference: Inference) -> bool:
    """Something holds, nothing fails, at most MOST_MISSING facts are unknown."""
    answers = [holds(condition, inference) for condition in rule.when]
    if False in answers or True not in answers or answers.count(None) > MOST_MISSING:
        return False
    return not any(holds(condition, inference) for condition in rule.unless)


def holds(condition: Condition, inference: Inference) -> bool | None:
    """A condition on the facts or findings of an inference; None when unknown. A finding not made is False."""
    value = inference.value(condition.fact)
    if condition.fact not in inference.facts and set(condition.one_of) & set(FINDING_GRADES):
        wanted = min(FINDING_GRADES[str(word)] for word in condition.one_of)
        return isinstance(value, float) and value >= wanted
    return condition.holds(value)


def _says_nothing_new(rule: Rule, inference: Inference) -> bool:
    """Whether everything the rule would conclude is settled already."""
    return bool(rule.then.know) and all(name in inference.facts for name in rule.then.know)


def _weight(rule: Rule) -> float:
    if rule.then.standing is None:
        return 1.0
    return 2.0 if STANDINGS.index(rule.then.standing) <= STANDINGS.index("rescue") else 1.0


def _askable_behind(rule: Rule, rulebook: Rulebook, inference: Inference, depth: int = 1) -> Iterator[tuple[str, int]]:
    """Told facts that have a question and are missing for `rule`, with the number of rules in between."""
    for condition in rule.when:
        if holds(condition, inference) is None:
            yield from _behind(condition, rulebook, inference, depth)


def _behind(condition: Condition, rulebook: Rulebook, inference: Inference, depth: int) -> Iterator[tuple[str, int]]:
    """What could be asked to settle one unknown fact: itself, what arithmetic makes it of, what rules conclude it from."""
    fact, vocabulary = condition.fact, rulebook.vocabulary
    if fact in vocabulary.askable:
        yield fact, depth
    if fact not in vocabulary or depth >= DEEPEST:
        return
    for source in vocabulary[fact].worked_out_from:
        if source not in inference.facts and source in vocabulary.askable:
            yield source, depth + 1
    for maker in _makers(condition, rulebook):
        answers = [holds(c, inference) for c in maker.when]
        if False not in answers and answers.count(None) <= MOST_MISSING:
            yield from _askable_behind(maker, rulebook, inference, depth + 1)


def _makers(condition: Condition, rulebook: Rulebook) -> Iterator[Rule]:
    """Rules that would conclude a value the condition accepts."""
    for rule in rulebook.makers.get(condition.fact, ()):
        if condition.holds(rule.then.know[condition.fact]):
            yield rule
