"""Steps of rules to steps for this cook: figures filled in, what stands already or can't be done left out."""

from collections.abc import Iterable, Mapping

from advisor.changes import move_name
from advisor.facts import Value
from advisor.inference.records import Inference
from advisor.reply import StepSaid
from advisor.rulebook.catalogue import Catalogue
from advisor.rulebook.schema import Amount, Number, Step
from advisor.situation import CANNOT, HALF_SET
from advisor.wording import SAME_OPENING, Wording, opening_from


def all_made(steps: Iterable[Step], inference: Inference, wording: Wording) -> list[StepSaid]:
    """Rules' steps for this cook; the first move of each vent is said from where the vent stands."""
    said: list[StepSaid] = []
    for step in steps:
        vent = step.parameters.get("vent")
        moved = any(one.act == "set_vent" and one.parameters.get("vent") == vent for one in said)
        one = _made(step, inference, wording, None if moved else inference.value(f"{vent}_vent"))
        if one.parameters.get("times") != 0:  # "how many more burps": none
            said.append(one)
    return said


def _made(step: Step, inference: Inference, wording: Wording, stands: Value | None) -> StepSaid:
    """A rule's step with its numbers filled in and its words rendered. stands: how far its vent is open now."""
    numbers = {name: _number(Amount.model_validate(value) if isinstance(value, dict) else value, inference)
               for name, value in step.parameters.items()}
    wait = _number(step.wait_min, inference) or None
    due = _due(step, inference)
    words = {name: fact.value for name, fact in inference.facts.items()} | numbers | {"wait_min": wait}
    if step.act == "set_vent":
        words["opening"] = opening_from(float(numbers["opening"]), None if stands is None else float(stands))
    numbers |= _in_inches(step, numbers, inference)
    return StepSaid(n=0, act=step.act, says=wording.fill(step.says, words), wait_min=wait, when=due or None,
                    **numbers)


def _in_inches(step: Step, numbers: Mapping[str, object], inference: Inference) -> dict[str, float]:
    """The opening of the bottom vent in inches too, where the cook is told inches."""
    inch = inference.value("inch_bottom")  # the opening that is an inch on this cooker
    if step.act != "set_vent" or numbers.get("vent") != "bottom" or "inch}" not in step.says or not inch:
        return {}
    return {"opening_in": round(float(numbers["opening"]) / float(inch), 2)}


def not_yet_made(steps: list[StepSaid], inference: Inference) -> list[StepSaid]:
    """Halfway through moving both vents, the steps without the vent that stands already."""
    if not inference.value(HALF_SET):
        return steps
    return [step for step in steps
            if step.wait_min or step.when or step.act != "set_vent" or not _stands(step, inference)]


def _stands(step: StepSaid, inference: Inference) -> bool:
    stands = inference.value(f"{step.parameters['vent']}_vent")
    return stands is not None and abs(float(stands) - float(step.parameters["opening"])) < SAME_OPENING


def _due(step: Step, inference: Inference) -> dict[str, dict[str, float]]:
    """When a step is due, in figures. What is read off the dial where the target is known, else a distance."""
    due: dict[str, dict[str, float]] = {}
    for fact, bounds in (step.when or {}).items():
        for test, bound in bounds.items():
            number = _number(bound, inference)
            if number is not None:
                due.setdefault(fact, {})[test] = number
            elif fact == "dome_f" and isinstance(bound, Amount) and bound.from_ == "target_f":
                due.setdefault("over_f", {})[test] = bound.plus
    target = inference.value("target_f")
    if target is not None and "over_f" in due:
        due["dome_f"] = {test: round(float(target) + number, 1) for test, number in due.pop("over_f").items()}
    return due


def _number(number: Number | str | None, inference: Inference) -> float | str | None:
    """A literal as it stands; an amount from its fact, or what it says otherwise."""
    if not isinstance(number, Amount):
        return number
    value = inference.value(number.from_)
    return number.otherwise if value is None else round(float(value) + number.plus, 3)


def hands_off_first(steps: list[StepSaid], catalogue: Catalogue, inference: Inference,
                     wording: Wording) -> list[StepSaid]:
    """A wait in front when a vent would be moved before the last move has shown; two moved together are one move."""
    rest = 0.0 if inference.value(HALF_SET) else inference.value("rest_of_hands_off_min") or 0.0
    waited = 0.0
    for step in steps:
        if catalogue.acts[step.act].moves_vent and waited < rest:
            wait = round(rest - waited, 1)
            says = wording.fill(catalogue.acts["wait"].says, {"wait_min": max(1.0, wait)})
            return [StepSaid(n=0, act="wait", says=says, wait_min=wait), *steps]
        waited += step.wait_min or 0.0
    return steps


def beyond(step: Step, inference: Inference) -> bool:
    """Whether the person has said that this can't be done."""
    cannot = inference.value(CANNOT)
    return cannot is not None and move_name(step.act, step.parameters) in str(cannot).split(",")
