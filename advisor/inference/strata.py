"""In which order rules must fire so that `unless` is asked only once everything it names has been settled.

Negation is safe only when stratified: a rule fires after every rule that can conclude a fact of its `unless`.
(Apt, Blair and Walker 1988, "Towards a theory of declarative knowledge"; from memory.)
"""

from collections import defaultdict
from collections.abc import Sequence

from advisor.errors import InferenceError
from advisor.rulebook.schema import Rule


def salience_of(rules: Sequence[Rule]) -> dict[str, int]:
    """Rule id -> salience, 1 fires first. Raises InferenceError for a circle through `unless`."""
    makers = defaultdict(list)
    for rule in rules:
        for fact in rule.then.know or {}:
            makers[fact].append(rule.id)
    level = {rule.id: 1 for rule in rules}
    for _ in range(len(rules) + 1):
        raised = _raise_levels(rules, makers, level)
        if raised is None:
            return level
    raise InferenceError(f"{raised} waits for itself", "its `unless` names a fact that follows from its own conclusion",
                         "break the circle: state the fact in `when` instead")


def _raise_levels(rules: Sequence[Rule], makers: dict[str, list[str]], level: dict[str, int]) -> str | None:
    """One pass; returns the id of a rule that had to move, None when all stand right."""
    moved = None
    for rule in rules:
        after = [level[maker] for fact in rule.when for maker in makers[fact.fact]]
        after += [level[maker] + 1 for fact in rule.unless for maker in makers[fact.fact]]
        wanted = max(after, default=1)
        if wanted > level[rule.id]:
            level[rule.id], moved = wanted, rule.id
    return moved
