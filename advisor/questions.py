"""The one question worth asking now: the one whose answer is likeliest to change what the cook should do.

For each candidate fact every likely answer (value and share from the vocabulary) is supposed in turn and the plan is
made again. The worth of the question is

    sum over answers of share * (change of plan + DANGER_BONUS if the answer would reveal a danger)

with change of plan = 1 - |steps in common| / |steps in either| (Jaccard distance; the first step counts double).
It is the expected value of information with the plan as the decision and the distance as the loss (Howard 1966,
"Information value theory"; from memory). A question below WORTH_ASKING is not asked at all. While nothing is to be done
yet and half of the distance from the target is known, the other half counts HALF_KNOWN more: every figure hangs on it.
"""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass

from advisor.facts import Value
from advisor.inference.records import Inference
from advisor.lacking import candidates, has_effect
from advisor.plan import Plan
from advisor.reply import QuestionAsked, StepSaid
from advisor.rulebook.loader import Rulebook
from advisor.vocabulary import Answer
from advisor.wording import Wording

MOST_TRIED = 3        # candidates that are worked out in full: a turn must stay instant
WORTH_ASKING = 0.12   # below this the answer would hardly change anything
DANGER_BONUS = 0.5    # half as much as a whole change of plan
KEEP_CLEAR = "keep_clear"  # while this holds nobody is asked what somebody would have to go near to find out
HALF_KNOWN = 0.5      # the same, for the half that is missing of the distance from the target

Supposing = Callable[[str, Value], tuple[Inference, Plan]]


@dataclass(frozen=True, slots=True)
class Worth:
    """What a question is worth, and what the answer decides."""

    fact: str
    worth: float

    def __str__(self) -> str:
        return f"{self.fact} {self.worth:.2f}"


def choose_question(rulebook: Rulebook, inference: Inference, plan: Plan, declined: Iterable[str],
                    suppose: Supposing, wording: Wording) -> QuestionAsked | None:
    """The question with the largest expected change of plan, or None when none is worth asking."""
    worths = rank_questions(rulebook, inference, plan, declined, suppose)
    if not worths or worths[0].worth < WORTH_ASKING:
        return None
    return phrase(worths[0].fact, rulebook, inference, wording)


def phrase(fact: str, rulebook: Rulebook, inference: Inference, wording: Wording) -> QuestionAsked:
    """The question for a fact as the cook hears it."""
    definition = rulebook.vocabulary[fact]
    words = {name: known.value for name, known in inference.facts.items()}
    return QuestionAsked(fact=fact, says=wording.fill(definition.ask.says, words), choices=definition.ask.choices,
                         because=f"{definition.says} decides what to do next")


def rank_questions(rulebook: Rulebook, inference: Inference, plan: Plan, declined: Iterable[str],
                   suppose: Supposing) -> list[Worth]:
    """The candidates tried, worth most first. One that could not beat the best so far is not worked out."""
    followed = {firing.rule.id for firing in plan.chosen}
    first = _first_of_all(rulebook, inference, plan)
    wanted = [*first, *candidates(rulebook, inference, followed)]
    if inference.value(KEEP_CLEAR) is True:
        wanted = [fact for fact in wanted if rulebook.vocabulary[fact].ask.from_afar]
    open_facts = [fact for fact in dict.fromkeys(wanted)
                  if fact not in set(declined) and not _is_moot(fact, rulebook, inference)][:MOST_TRIED]
    telling = {fact: _telling_answers(fact, rulebook, inference) for fact in open_facts}
    worths: list[Worth] = []
    for fact in sorted(open_facts, key=lambda fact: -_at_most(telling[fact])):
        if _at_most(telling[fact]) > max((worth.worth for worth in worths), default=WORTH_ASKING):
            bonus = HALF_KNOWN if fact in first else 0.0
            worths.append(Worth(fact, round(_worth(fact, telling[fact], plan, suppose) + bonus, 4)))
    return sorted(worths, key=lambda worth: (-worth.worth, worth.fact))


def _first_of_all(rulebook: Rulebook, inference: Inference, plan: Plan) -> list[str]:
    """What the distance from the target is made of, while half of it is known and nothing is to be done yet."""
    halves = rulebook.vocabulary["over_f"].worked_out_from
    missing = [name for name in halves if inference.value(name) is None]
    return missing if not plan.steps and 0 < len(missing) < len(halves) else []


def _is_moot(fact: str, rulebook: Rulebook, inference: Inference) -> bool:
    """Whether something known would end it at once: nobody asks whether a fire that climbs is out."""
    return any(condition.holds(inference.value(condition.fact)) for condition in rulebook.vocabulary[fact].ended_by
               if inference.value(condition.fact) is not None)


def _telling_answers(fact: str, rulebook: Rulebook, inference: Inference) -> list[Answer]:
    """The likely answers that could change anything at all."""
    return [answer for answer in rulebook.vocabulary[fact].ask.answers
            if has_effect(fact, answer.value, rulebook, inference)]


def _at_most(answers: list[Answer]) -> float:
    """What a question with these answers can be worth at the very most."""
    return sum(answer.share for answer in answers) * (1 + DANGER_BONUS)


def _worth(fact: str, answers: list[Answer], plan: Plan, suppose: Supposing) -> float:
    total = 0.0
    for answer in answers:
        _, then = suppose(fact, answer.value)
        total += answer.share * (change_of_plan(plan, then) + DANGER_BONUS * _reveals_danger(plan, then))
    return total


def change_of_plan(now: Plan, then: Plan) -> float:
    """0 when the two plans ask for the same, 1 when for nothing in common."""
    here, there = _weighted(now.steps), _weighted(then.steps)
    either = set(here) | set(there)
    if not either:
        return 0.0
    common = sum(min(here.get(step, 0), there.get(step, 0)) for step in either)
    return 1 - common / sum(max(here.get(step, 0), there.get(step, 0)) for step in either)


def _weighted(steps: Iterable[StepSaid]) -> Mapping[tuple, int]:
    """Each step by what is done, the first one doubly."""
    return {(step.act, *sorted(step.parameters.items())): 2 if step.n == 1 else 1 for step in steps}


def _reveals_danger(now: Plan, then: Plan) -> bool:
    known = {caution.id for caution in now.cautions if caution.level == "danger"}
    return any(caution.level == "danger" and caution.id not in known for caution in then.cautions)

