"""vent-moves: no procedure moves a vent again before the last move has shown.

Avoid
    - {act: set_vent, vent: top, opening: 0, says: ...}
    - {act: set_vent, vent: top, opening: 0.2, says: ...}                 the same vent, no wait between
    - {act: set_vent, vent: top, opening: 0, wait_min: 2, says: ...}
    - {act: set_vent, vent: bottom, opening: 0.25, says: ...}             another move after 2 minutes
Prefer
    moves that belong together directly after one another (they count as one), then a wait of 5 minutes or more
Why
    A move takes five minutes to show; one more before that is chasing the fire (common practice, no published
    source). Only an emergency may move sooner - and even then never the same vent twice in one go.
"""

from collections.abc import Iterator

from advisor.rule_lint.issue import Issue
from advisor.rule_lint.material import Material
from advisor.rulebook.schema import Amount, Number, Rule
from advisor.steering import HANDS_OFF_MIN

ID = "vent-moves"


def check(material: Material) -> Iterator[Issue]:
    for rule in material.of("recover"):
        yield from _of_rule(rule, material)


def _of_rule(rule: Rule, material: Material) -> Iterator[Issue]:
    together: list[str] = []  # vents moved in the move that is under way or was last
    waited: float | None = None  # since that move; None before the first
    for number, step in enumerate(rule.then.steps or ()):
        if material.catalogue.acts[step.act].moves_vent:
            vent, where = str(step.parameters.get("vent", step.act)), ["then", "steps", number]
            if waited and waited < HANDS_OFF_MIN and rule.then.standing != "emergency":
                yield material.issue(ID, rule, where, f"the {vent} vent is moved {waited:g} min after the last move",
                                     "that one has not shown yet", f"wait {HANDS_OFF_MIN:g} min or more in between")
            together = together if waited is not None and waited < HANDS_OFF_MIN else []
            if vent in together:
                yield material.issue(ID, rule, where, f"the {vent} vent is set twice without a wait",
                                     "the second setting undoes the first", "keep one, or wait in between")
            together, waited = [*together, vent], 0.0
        if waited is not None:
            waited += shortest(step.wait_min, material)


def shortest(wait: Number | None, material: Material) -> float:
    """The least that a wait can come to: an amount taken from a fact may be as small as the fact's lower bound."""
    if not isinstance(wait, Amount):
        return wait or 0.0
    least = material.vocabulary[wait.from_].bounds[0] + wait.plus
    return max(0.0, least if wait.otherwise is None else min(least, wait.otherwise))
