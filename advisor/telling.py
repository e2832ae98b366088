"""A reply's parts to the text a person reads beside the fire: danger first, hands next, the question last."""

from collections.abc import Iterable, Sequence

from advisor.plan import Plan
from advisor.reply import AnswerSaid, CautionSaid, FindingSaid, QuestionAsked, StepSaid
from advisor.rulebook.schema import FINDING_GRADES
from advisor.wording import Wording

MOST_FINDINGS = 2  # more would stand between the cook and the first step


def tell(before: Sequence[str], answers: Iterable[AnswerSaid], findings: Sequence[FindingSaid], plan: Plan,
         elsewhere: Sequence[CautionSaid], prospect: Sequence[str], look_again_min: float | None,
         after: Sequence[str], question: QuestionAsked | None, phrases: dict[str, str], wording: Wording, again: bool = False) -> str:
    """The whole reply. `before` are lines that come ahead of the advice, `prospect` those that say when it is back, `after` those behind it;
    `elsewhere` are dangers on other cookers; `again`: without what was said beside the same steps before, but for
    dangers."""
    first, later = _dangers(plan)
    replies = [answer.says for answer in answers]
    blocks = [
        replies if plan.at_stake else [],  # "should I throw water on it": no waits for nothing
        danger_lines([*elsewhere, *first], phrases),
        before if plan.at_stake else [*before, *replies],
        [finding.says for finding in _worth_saying(findings, plan)],
        _steps_with_dangers(plan.steps, later, phrases),
        [f"{phrases['take_care']} {caution.says}" for caution in plan.cautions
         if caution.level != "danger" and not (again and caution.bears_on)],
        [] if again else _success(plan, phrases),
        prospect,
        [] if again else [_above_us(plan.cautions, phrases)],
        [_look_again(look_again_min, phrases, wording), *after],
        [question_line(question, phrases)],
    ]
    return _joined(blocks)


def tell_short(cautions: Iterable[CautionSaid], lines: Iterable[str], question: QuestionAsked | None,
               phrases: dict[str, str]) -> str:
    """An answer that leaves the steps as they were said before; the dangers are said again all the same."""
    return _joined([danger_lines(cautions, phrases), lines, [question_line(question, phrases)]])


def tell_amid_danger(cautions: Iterable[CautionSaid], lines: Iterable[str], steps: Iterable[StepSaid],
                     question: QuestionAsked | None, phrases: dict[str, str]) -> str:
    """An answer while it burns: in front, then the dangers, then what is to be done all the same."""
    return _joined([lines, danger_lines(cautions, phrases), step_lines(steps), [question_line(question, phrases)]])


def _joined(blocks: Iterable[Iterable[str]]) -> str:
    paragraphs = ["\n".join(line for line in block if line) for block in blocks]
    return "\n\n".join(paragraph for paragraph in paragraphs if paragraph)


def danger_lines(cautions: Iterable[CautionSaid], phrases: dict[str, str]) -> list[str]:
    return [f"{phrases['danger']} {caution.says}" for caution in cautions if caution.level == "danger"]


def step_lines(steps: Iterable[StepSaid]) -> list[str]:
    return [f"{step.n}. {step.says}" for step in steps]


def question_line(question: QuestionAsked | None, phrases: dict[str, str]) -> str:
    return f"{phrases['ask']} {question.says}" if question else ""


def _worth_saying(findings: Sequence[FindingSaid], plan: Plan) -> Sequence[FindingSaid]:
    """What the plan rests on, then what is likely as well; in an emergency nothing but the first."""
    named = {condition.fact for firing in plan.chosen for condition in firing.rule.when}
    rests_on = [finding for finding in findings if finding.id in named]
    if plan.is_emergency:
        return rests_on[:MOST_FINDINGS]
    also = [finding for finding in findings
            if finding not in rests_on and finding.certainty >= FINDING_GRADES["likely"]]
    return [*rests_on, *also][:MOST_FINDINGS]


def _dangers(plan: Plan) -> tuple[list[CautionSaid], list[CautionSaid]]:
    """Dangers that stand first of all, and those that stand right before the step they bear on."""
    acts = {step.act for step in plan.steps}
    dangers = [caution for caution in plan.cautions if caution.level == "danger"]
    later = [caution for caution in dangers if acts & set(caution.bears_on)]
    return [caution for caution in dangers if caution not in later], later


def _steps_with_dangers(steps: Iterable[StepSaid], dangers: list[CautionSaid], phrases: dict[str, str]) -> list[str]:
    lines, waiting = [], list(dangers)
    for step in steps:
        for caution in [caution for caution in waiting if step.act in caution.bears_on]:
            lines.append(f"   {phrases['danger']} {phrases['danger_before'].replace('{n}', str(step.n))} {caution.says}")
            waiting.remove(caution)
        lines.append(f"{step.n}. {step.says}")
    return lines


def _above_us(cautions: Iterable[CautionSaid], phrases: dict[str, str]) -> str:
    """Who knows better than this program, named once."""
    named = dict.fromkeys(caution.defer_to for caution in cautions if caution.defer_to)
    once = [name for name in named if not any(name != other and name in other for other in named)]
    return f"{phrases['above_us']} {', '.join(once)}." if once else ""


def _success(plan: Plan, phrases: dict[str, str]) -> list[str]:
    """How to know that the most urgent procedure worked, and what else to do."""
    lines = [f"{phrases['works_if']} {plan.works_if}"] if plan.works_if else []
    return lines + ([f"{phrases['if_not']} {plan.if_not}"] if plan.if_not else [])


def _look_again(wait_min: float | None, phrases: dict[str, str], wording: Wording) -> str:
    if not wait_min:
        return ""  # the hands are busy, or it burns
    return wording.fill(phrases["look_again"], {"wait_min": wait_min})
