"""In which ways conditions can hold, and situations in which they do. Only what is sound is claimed: "no way" is proven,
a situation is a proposal that a full run has to confirm.

Each fact is looked at by itself: its conditions can hold together if one of finitely many sample values meets them all
(every constant named, the middle between neighbours, and both ends - enough for conditions that are bounds).
"""

from collections.abc import Iterable, Iterator
from itertools import combinations, islice, pairwise

from advisor.conditions import NUMBER_TESTS, Condition
from advisor.facts import Value
from advisor.inference.certainty import combine
from advisor.rule_lint.material import Material
from advisor.rulebook.schema import FINDING_GRADES, Rule
from advisor.vocabulary import Vocabulary

Way = tuple[Condition, ...]
MOST_WAYS = 60     # more would slow the check down and prove nothing new
MOST_TOGETHER = 3  # diagnose rules taken together to reach a grade
FAR = 1e6          # stands for no bound


def values_meeting(conditions: Iterable[Condition], vocabulary: Vocabulary,
                   beside: Iterable[Condition] = ()) -> list[Value]:
    """Sample values of the one fact that all `conditions` are about which meet them all; numbers ascend.

    beside: more conditions on the fact, whose bounds the samples must tell apart though they need not meet them.
    """
    conditions = list(conditions)
    return [value for value in _samples([*conditions, *beside], vocabulary)
            if all(condition.holds(value) for condition in conditions)]


def _samples(conditions: list[Condition], vocabulary: Vocabulary) -> list[Value]:
    name = conditions[0].fact
    named = [value for condition in conditions for value in (*condition.one_of, *condition.none_of)]
    if name not in vocabulary:
        return [word for word in FINDING_GRADES]
    definition = vocabulary[name]
    if definition.type == "flag":
        return [True, False]
    if not definition.is_number:
        return list(definition.values) or [*named, "anything"]
    low, high = (max(-FAR, definition.bounds[0]), min(FAR, definition.bounds[1]))
    bounds = [getattr(condition, test) for condition in conditions for test in NUMBER_TESTS]
    points = sorted({low, high, *(value for value in (*named, *bounds) if isinstance(value, float))})
    middles = [(one + other) / 2 for one, other in pairwise(points)]
    return [point for point in sorted({*points, *middles}) if low <= point <= high]


def possible(way: Way, vocabulary: Vocabulary) -> bool:
    """Whether all conditions of `way` can hold at once, fact by fact. Findings are not judged here."""
    return all(values_meeting(found, vocabulary) for name, found in by_fact(way).items() if name in vocabulary)


def by_fact(way: Way) -> dict[str, list[Condition]]:
    facts: dict[str, list[Condition]] = {}
    for condition in way:
        facts.setdefault(condition.fact, []).append(condition)
    return facts


def ways(conditions: Iterable[Condition], material: Material, findings: bool = False,
         within: tuple[str, ...] = ()) -> list[Way]:
    """Every way in which `conditions` can hold, facts that rules conclude led back to those they follow from.

    findings: lead findings back to the rules that point to them too. within: rules being led back already.
    """
    told_first = sorted(conditions, key=lambda condition: condition.fact not in material.vocabulary.told)
    found: list[Way] = [()]
    for condition in told_first:
        options = list(_options(condition, material, findings, within))
        merged = (way + option for way in found for option in options)
        found = list(islice((way for way in merged if possible(way, material.vocabulary)), MOST_WAYS))
    return found


def _options(condition: Condition, material: Material, findings: bool, within: tuple[str, ...]) -> Iterator[Way]:
    name = condition.fact
    if name not in material.vocabulary:
        yield from _of_finding(condition, material) if findings else [(condition,)]
    elif name in material.vocabulary.told or name in material.by_arithmetic:
        yield (condition,)
    else:
        for maker in makers(condition, material):
            if maker.id not in within:
                concluded = Condition(name, one_of=(maker.then.know[name],))
                for way in ways(maker.when, material, findings, (*within, maker.id)):
                    yield (concluded, condition, *way)


def makers(condition: Condition, material: Material) -> list[Rule]:
    """Rules of understand/ that conclude a value which meets `condition`."""
    return [rule for rule in material.of("understand")
            if condition.fact in (rule.then.know or {}) and condition.holds(rule.then.know[condition.fact])]


def pointers(finding: str, material: Material) -> list[Rule]:
    """Rules that speak for a finding, the strongest first."""
    speaking = [rule for rule in material.of("diagnose") if (rule.then.points_to or {}).get(finding, 0) > 0]
    return sorted(speaking, key=lambda rule: -rule.then.points_to[finding])


def grade_of(condition: Condition) -> float:
    """The certainty a condition on a finding asks for."""
    return min(FINDING_GRADES[str(word)] for word in condition.one_of)


def surest(finding: str, rules: Iterable[Rule]) -> float:
    """The certainty when all `rules` speak for it and none against."""
    return combine(rule.then.points_to[finding] for rule in rules)


def _of_finding(condition: Condition, material: Material) -> Iterator[Way]:
    """The fewest diagnose rules that together reach the grade, each such set a way."""
    speaking = pointers(condition.fact, material)
    for number in range(1, MOST_TOGETHER + 1):
        enough = [rules for rules in combinations(speaking, number)
                  if surest(condition.fact, rules) >= grade_of(condition)]
        for rules in enough:
            yield from ways([each for rule in rules for each in rule.when], material)
        if enough:
            return


def proposals(way: Way, material: Material) -> Iterator[dict[str, Value]]:
    """Told facts that should bring `way` about: with each fact as low, in the middle and as high as it may be."""
    outside = material.vocabulary.told.keys() | material.by_arithmetic
    choices = {name: values_meeting(found, material.vocabulary)
               for name, found in by_fact(way).items() if name in outside}
    seen = []
    for pick in (lambda values: values[len(values) // 2], lambda values: values[0], lambda values: values[-1]):
        told = {name: pick(values) for name, values in choices.items()}
        if told not in seen:
            seen.append(told)
            yield told
