"""In which order rules must fire so that `unless` is asked only once everything it names has been settled.

Negation is safe only when stratified: a rule fires after every rule that can conclude a fact of its `unless`.
(Apt, Blair and Walker 1988, "Towards a theory of declarative knowledge"; from memory.)
"""

from collections import defaultdict
from collections.abc import Mapping, Sequence

from advisor.errors import InferenceError
from advisor.rulebook.schema import Rule


def salience_of(rules: Sequence[Rule]) -> dict[str, int]:
    """Rule id -> salience, 1 fires first. Raises InferenceError for a circle through `unless`."""
    makers = defaultdict(list)
    for rule in rules:
        for fact in rule.then.know or {}:
            makers[fact].append(rule)
    for rule in rules:
        if waiting := _waits_for_itself(rule, makers):
            raise InferenceError(f"{rule.id} waits for itself", f"its `unless` names {waiting}, which follows from its "
                                 "own conclusion", "break the circle: state the fact in `when` instead")
    level = {rule.id: 1 for rule in rules}
    while _raise_levels(rules, makers, level):
        pass  # ends, because no circle raises a level
    return level


def _waits_for_itself(rule: Rule, makers: Mapping[str, list[Rule]]) -> str | None:
    """The fact of `unless` that is made, over however many rules, from what `rule` itself concludes."""
    own = set(rule.then.know or {})
    return next((condition.fact for condition in rule.unless if own & _made_from(condition.fact, makers)), None)


def _made_from(fact: str, makers: Mapping[str, list[Rule]]) -> set[str]:
    """`fact` and every fact it may follow from or be kept back by."""
    found, open_facts = {fact}, [fact]
    while open_facts:
        asked = {condition.fact for maker in makers.get(open_facts.pop(), ()) for condition in (*maker.when, *maker.unless)}
        open_facts += asked - found
        found |= asked
    return found


def _raise_levels(rules: Sequence[Rule], makers: Mapping[str, list[Rule]], level: dict[str, int]) -> bool:
    """One pass; whether any rule had to move."""
    moved = False
    for rule in rules:
        after = [level[maker.id] for condition in rule.when for maker in makers.get(condition.fact, ())]
        after += [level[maker.id] + 1 for condition in rule.unless for maker in makers.get(condition.fact, ())]
        wanted = max(after, default=1)
        if wanted > level[rule.id]:
            level[rule.id], moved = wanted, True
    return moved
