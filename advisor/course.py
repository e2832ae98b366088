"""Whether the plan is still the one that was under way, and what changed it. Compares what hands do, never words."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from advisor.cook import IDLE, Cook, Waiting, effects, in_hand
from advisor.facts import Value
from advisor.reply import StepSaid
from advisor.rulebook.catalogue import Catalogue
from advisor.wording import Wording, minutes, opening

Told = Mapping[str, Value]
Move = tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Course:
    """same: whether the plan still holds; says: that, or what changed and why."""

    same: bool
    says: str


def course_of(cook: Cook, told: Told, steps: Sequence[StepSaid], waiting: Waiting | None, catalogue: Catalogue,
              wording: Wording, now: float) -> Course:
    """Whether the plan of `cook` still holds now that `steps` follow from what was told.

    cook: as the last reply left it, with what was told since in its situation; waiting: the timer from now on.
    """
    phrases, left = catalogue.phrases, [step for step in cook.steps if step.n not in cook.steps_done]
    dropped = _dropped(left, steps, cook, catalogue)
    words: dict[str, Value | None] = {"now": in_short(in_hand(steps), catalogue)}
    if is_part(steps, left) and all(step.when for step in dropped):
        runs = waiting and waiting.hands_off and waiting.since_min < now
        rest = minutes(waiting.until_min - now) if waiting and runs else ""
        key = "course_same_waiting" if runs else "course_same"
        return Course(True, wording.fill(phrases[key], words | {"left": rest}))
    words |= {"before": in_short(dropped, catalogue), "why": _why(cook, told, catalogue, wording, now)}
    return Course(False, wording.fill(phrases["course_changed_instead" if dropped else "course_changed"], words))


def in_short(steps: Iterable[StepSaid], catalogue: Catalogue) -> str:
    """What hands do in `steps`, in a few words; idle steps count only where nothing else is to be done."""
    phrases, steps = catalogue.phrases, list(steps)
    busy = [step for step in steps if step.act not in IDLE] or steps[:1]
    vents = {(step.parameters["vent"], opening(step.parameters["opening"])) for step in busy if step.act == "set_vent"}
    if len(vents) == 2 and len({stands for _, stands in vents}) == 1:
        both = phrases["short_both"].format(opening=vents.pop()[1])
        named = [both if step.act == "set_vent" else _short(step, catalogue) for step in busy]
    else:
        named = [_short(step, catalogue) for step in busy]
    return f"{phrases['and_then']} ".join(dict.fromkeys(named)) or phrases["short_wait"]


def _short(step: StepSaid, catalogue: Catalogue) -> str:
    phrases, given = catalogue.phrases, step.parameters
    if step.act == "set_vent":
        return phrases["short_vent"].format(vent=given["vent"], opening=opening(given["opening"]))
    return phrases["short_wait"] if step.act in ("wait", "change_nothing") else catalogue.acts[step.act].title


def is_part(steps: Iterable[StepSaid], of: Iterable[StepSaid]) -> bool:
    """Whether what hands do in `steps` stands in `of` too, in the same order."""
    rest = iter(_moves(of))
    return all(move in rest for move in _moves(steps))


def _moves(steps: Iterable[StepSaid]) -> list[Move]:
    """What hands do, each once; an opening counts as it is said."""
    return list(dict.fromkeys(_move(step) for step in steps if step.act not in IDLE))


def _move(step: StepSaid) -> Move:
    given = step.parameters
    return (step.act, given["vent"], opening(given["opening"])) if step.act == "set_vent" else (step.act,)


def _dropped(left: Iterable[StepSaid], steps: Sequence[StepSaid], cook: Cook, catalogue: Catalogue) -> list[StepSaid]:
    """The moves that were to come next, were not made, and are no longer in the plan."""
    kept = _moves(steps)
    ahead = [step for step in left if step.act not in IDLE and not _stands(step, cook, catalogue)]
    return [step for step in in_hand(ahead) if _move(step) not in kept]


def _stands(step: StepSaid, cook: Cook, catalogue: Catalogue) -> bool:
    """Whether a vent stands already where the step puts it, because the person said so."""
    if step.act != "set_vent":
        return False
    facts, left = cook.situation.facts, effects(step, catalogue.acts[step.act])
    return all(name in facts and facts[name].value == value for name, value in left.items()
               if name.endswith("_vent"))


def _why(cook: Cook, told: Told, catalogue: Catalogue, wording: Wording, now: float) -> str:
    """What the plan did not foresee: another target, where the dome went, a wait that is over, or what else was told."""
    phrases, readings = catalogue.phrases, cook.situation.readings
    if "target_f" in told:
        return wording.fill(phrases["because_target"], {"target_f": told["target_f"]})
    if {"dome_f", "over_f"} & set(told) and len(readings) > 1 and not cook.situation.from_target:
        (before, was), (at, reads) = readings[-2:]
        key = "because_dome" if round(was) != round(reads) else "because_dome_stays"
        return wording.fill(phrases[key], {"was": wording.temperature(was), "dome_f": reads,
                                           "ago": minutes(max(1.0, at - before))})
    if cook.waiting and cook.waiting.until_min <= now and not {"dome_f", "over_f"} & set(told):
        return wording.fill(phrases["because_time"], {"ago": minutes(now - cook.waiting.since_min)})
    fact = next(iter(told))
    says, value = wording.vocabulary[fact].says, told[fact]
    said = says if value is True else f"{says}: {wording.say(fact, value)}"
    return phrases["because_told"].format(told=said)
