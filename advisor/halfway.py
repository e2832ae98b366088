"""One of two vents that belong together is set: what is left of the plan, which the new state alone would not call for. Pure."""

from collections.abc import Collection
from dataclasses import replace

from advisor.advice import Advice
from advisor.cook import in_hand


def rest_of(earlier: Advice, now: Advice, vents: Collection[str]) -> Advice:
    """`now` with the plan of `earlier`, the advice as if `vents` had not been set yet, without the steps that set them.

    `now` itself where nothing of the kind is left, or where it burns.
    """
    if earlier.plan.is_emergency or now.plan.is_emergency:
        return now
    left, to_go = [], set(vents)
    for step in earlier.plan.steps:
        vent = step.parameters.get("vent") if step.act == "set_vent" else None
        if vent in to_go:
            to_go.remove(vent)
        else:
            left.append(step)
    if not any(step.act == "set_vent" for step in in_hand(left)):
        return now
    steps = tuple(step.model_copy(update={"n": n}) for n, step in enumerate(left, 1))
    inference = replace(earlier.inference, facts=now.facts)
    return replace(now, inference=inference, plan=replace(earlier.plan, steps=steps), question=earlier.question)
