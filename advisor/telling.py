"""A reply's parts to the text a person reads beside the fire: danger first, hands next, the question last."""

from collections.abc import Iterable, Sequence

from advisor.plan import Plan
from advisor.reply import AnswerSaid, CautionSaid, FindingSaid, QuestionAsked, StepSaid
from advisor.wording import Wording

MOST_FINDINGS = 2  # more would stand between the cook and the first step


def tell(before: Sequence[str], answers: Iterable[AnswerSaid], findings: Sequence[FindingSaid], plan: Plan,
         question: QuestionAsked | None, phrases: dict[str, str], wording: Wording) -> str:
    """The whole reply. `before` are lines that come ahead of the advice."""
    blocks = [
        _dangers(plan.cautions, phrases),
        [*before, *(answer.says for answer in answers)],
        [finding.says for finding in findings[:MOST_FINDINGS]],
        step_lines(plan.steps),
        _cares(plan.cautions, phrases),
        _success(plan, phrases, wording),
        [_look_again(plan, phrases, wording)],
        [question_line(question, phrases)],
    ]
    paragraphs = ["\n".join(line for line in block if line) for block in blocks]
    return "\n\n".join(paragraph for paragraph in paragraphs if paragraph)


def step_lines(steps: Iterable[StepSaid]) -> list[str]:
    return [f"{step.n}. {step.says}" for step in steps]


def question_line(question: QuestionAsked | None, phrases: dict[str, str]) -> str:
    return f"{phrases['ask']} {question.says}" if question else ""


def _dangers(cautions: Iterable[CautionSaid], phrases: dict[str, str]) -> list[str]:
    return [f"{phrases['danger']} {_caution(caution)}" for caution in cautions if caution.level == "danger"]


def _cares(cautions: Iterable[CautionSaid], phrases: dict[str, str]) -> list[str]:
    return [f"{phrases['take_care']} {_caution(caution)}" for caution in cautions if caution.level != "danger"]


def _caution(caution: CautionSaid) -> str:
    return f"{caution.says} (Above this: {caution.defer_to}.)" if caution.defer_to else caution.says


def _success(plan: Plan, phrases: dict[str, str], wording: Wording) -> list[str]:
    """How to know that the most urgent procedure worked, and what else to do."""
    if not plan.chosen:
        return []
    firing = plan.chosen[0]
    words = {fact.name: fact.value for fact in firing.used}
    then = firing.rule.then
    lines = [f"{phrases['works_if']} {wording.fill(then.works_if, words)}"] if then.works_if else []
    return lines + ([f"{phrases['if_not']} {wording.fill(then.if_not, words)}"] if then.if_not else [])


def _look_again(plan: Plan, phrases: dict[str, str], wording: Wording) -> str:
    if not plan.check_in_min:
        return ""
    return wording.fill(phrases["look_again"], {"wait_min": plan.check_in_min})
