"""Rules to productions for the engine: alternatives written out, one pattern a fact. Negation stays outside."""

from collections.abc import Mapping, Sequence
from itertools import product

from advisor.conditions import Condition
from advisor.errors import InferenceError
from advisor.inference.patterns import Pattern, Production, Test, field_of
from advisor.rulebook.schema import FINDING_GRADES, Rule
from advisor.vocabulary import Vocabulary

MOST_ALTERNATIVES = 48
BOUNDS = {"at_least": ">=", "above": ">", "at_most": "<=", "below": "<"}


def productions_of(rules: Sequence[Rule], salience: Mapping[str, int], vocabulary: Vocabulary) -> list[Production]:
    """Every way in which a rule's `when` can hold, as a conjunction named "<rule id>#<number>"."""
    made = []
    for rule in rules:
        ways = list(product(*(_alternatives(condition, vocabulary) for condition in rule.when)))
        if len(ways) > MOST_ALTERNATIVES:
            raise InferenceError(f"{rule.id} can hold in {len(ways)} ways", f"at most {MOST_ALTERNATIVES} are allowed",
                                 "name the alternatives as a fact of understand/")
        made += [Production(f"{rule.id}#{number}", salience[rule.id], way) for number, way in enumerate(ways)]
    return made


def rule_id_of(production: str) -> str:
    return production.partition("#")[0]


def _alternatives(condition: Condition, vocabulary: Vocabulary) -> list[Pattern]:
    """One pattern for each value allowed; bounds and other tests stand in all of them."""
    if condition.fact not in vocabulary:
        grade = min(FINDING_GRADES[str(word)] for word in condition.one_of)
        return [Pattern(condition.fact, (Test("n", ">=", grade),))]
    definition = vocabulary[condition.fact]
    bounds = tuple(Test("n", BOUNDS[name], getattr(condition, name)) for name in BOUNDS
                   if getattr(condition, name) is not None)
    banned = () if definition.values or definition.type == "flag" else tuple(
        Test(field_of(value), "!=", value) for value in condition.none_of)
    values = _values(condition, definition.values if definition.values else (True, False)
                     if definition.type == "flag" else ())
    if not values:
        return [Pattern(condition.fact, bounds + banned)]
    return [Pattern(condition.fact, (Test(field_of(value), "==", value), *bounds, *banned)) for value in values]


def _values(condition: Condition, possible: tuple) -> tuple:
    """The values that may be met one by one: those listed, or all but the banned where they can be listed."""
    if condition.one_of:
        return tuple(value for value in condition.one_of if value not in condition.none_of)
    return tuple(value for value in possible if value not in condition.none_of) if condition.none_of else ()
