"""How evidence for and against a finding becomes one certainty.

Certainty factors, -1 (surely not) .. 1 (surely): Shortliffe and Buchanan, "A model of inexact reasoning in medicine",
Mathematical Biosciences 23 (1975), with the rule for mixed signs that was adopted later in EMYCIN (from memory):
    both for:      a + b - a*b
    both against:  a + b + a*b
    mixed:         (a + b) / (1 - min(|a|, |b|))
Evidence for is gathered first, then evidence against, then the two are mixed: the order of firing can't matter.
A rule's weight counts as far as the weakest fact it stands on can be trusted (TRUST).
"""

from collections.abc import Iterable

from advisor.facts import Fact, Origin

# How far a fact of each origin is trusted. Judgement: common practice, no published source.
TRUST: dict[Origin, float] = {"measured": 1.0, "said": 1.0, "derived": 1.0, "learned": 0.9, "forecast": 0.8,
                              "assumed": 0.6}
STRONGEST = 0.99  # nothing a rule concludes is beyond doubt


def combine(weights: Iterable[float]) -> float:
    """One certainty (-1..1) from many weights (-1..1). No evidence gives 0."""
    weights = list(weights)
    gathered_for, against = 0.0, 0.0
    for weight in weights:
        if weight >= 0:
            gathered_for += weight * (1 - gathered_for)
        else:
            against += weight * (1 + against)
    if gathered_for == 0 or against == 0:
        return _held(gathered_for + against)
    gathered_for, against = _held(gathered_for), _held(against)
    return (gathered_for + against) / (1 - min(gathered_for, -against))


def trusted(weight: float, used: Iterable[Fact]) -> float:
    """`weight` as far as the weakest fact it rests on carries it."""
    return weight * min((TRUST[fact.origin] for fact in used), default=1.0)


def _held(certainty: float) -> float:
    return max(-STRONGEST, min(STRONGEST, certainty))
