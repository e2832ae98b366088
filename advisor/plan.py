"""Firings of recover/ and safety/ to one plan: which procedures, in which order, and what keeps them apart.

One procedure a concern, the most urgent first; a later one that can't stand beside an earlier one is set aside.
Two laws hold for every plan, whatever the rules say: no vent move within the hands-off time of the last one unless
there is danger, and the cautions an act needs stand with it.
"""

from collections.abc import Iterable
from dataclasses import dataclass

from advisor.inference.records import Firing, Inference
from advisor.reply import CautionSaid, StepSaid
from advisor.rulebook.catalogue import Act, Catalogue, Caution
from advisor.rulebook.schema import CONCERNS, STANDINGS, Then
from advisor.steps import all_made, beyond, hands_off_first, not_yet_made
from advisor.wording import Wording

LEVELS = ("danger", "warning", "note")
SOON_MIN = 5.0  # judgement: steps without a wait are done by then; common practice, hands off for 5-6 minutes
LAST_URGENT = STANDINGS.index("safety")  # beside an emergency only what is as urgent as this may stand


@dataclass(frozen=True, slots=True)
class SetAside:
    """A procedure that fired but is not in the plan, and why in words."""

    rule: str
    why: str


@dataclass(frozen=True, slots=True)
class Plan:
    """steps in order; cautions with dangers first; chosen: the firings followed; set_aside: those that were not.

    works_if, if_not: how to know that the most urgent procedure worked, and what else to do; lasting: ids of the
    dangers that come from the state of things and not from a step.
    """

    steps: tuple[StepSaid, ...]
    cautions: tuple[CautionSaid, ...]
    chosen: tuple[Firing, ...]
    set_aside: tuple[SetAside, ...]
    works_if: str = ""
    if_not: str = ""
    lasting: frozenset[str] = frozenset()

    @property
    def first_wait_min(self) -> float | None:
        return next((step.wait_min for step in self.steps if step.wait_min), None)

    @property
    def check_in_min(self) -> float | None:
        """When to look again: the first wait; soon when there is something to do but no wait; None for nothing."""
        return self.first_wait_min or (SOON_MIN if self.steps else None)

    @property
    def lasting_dangers(self) -> tuple[CautionSaid, ...]:
        return tuple(caution for caution in self.cautions
                     if caution.id in self.lasting and caution.level == "danger" and not caution.bears_on)

    @property
    def is_emergency(self) -> bool:
        return any(firing.rule.then.standing == "emergency" for firing in self.chosen)

    @property
    def at_stake(self) -> bool:
        """Whether people or things are in danger now, whatever else is wrong."""
        urgent = any(STANDINGS.index(firing.rule.then.standing) <= LAST_URGENT for firing in self.chosen)
        return self.is_emergency or urgent and bool(self.lasting_dangers)

    @property
    def dangerous(self) -> bool:
        return any(caution.level == "danger" for caution in self.cautions)


def make_plan(inference: Inference, catalogue: Catalogue, wording: Wording) -> Plan:
    """The plan that follows from one inference. Pure."""
    chosen, set_aside = choose(inference, catalogue)
    doable = [step for firing in chosen for step in firing.rule.then.steps or () if not beyond(step, inference)]
    steps = not_yet_made(all_made(doable, inference, wording), inference)
    warned = [name for firing in inference.fired("safety") for name in firing.rule.then.warn or ()]
    cautions = _cautions(warned, steps, catalogue, inference, wording)
    if not any(STANDINGS.index(firing.rule.then.standing) <= LAST_URGENT for firing in chosen):
        steps = hands_off_first(steps, catalogue, inference, wording)
    numbered = tuple(step.model_copy(update={"n": n}) for n, step in enumerate(steps, 1))
    first = chosen[0].rule.then if chosen else None
    words = {name: fact.value for name, fact in inference.facts.items()}
    works_if, if_not = (wording.fill(text or "", words) for text in _outcomes(first, numbered))
    return Plan(numbered, cautions, tuple(chosen), tuple(set_aside), works_if, if_not, frozenset(warned))


def _outcomes(then: Then | None, steps: tuple[StepSaid, ...]) -> tuple[str | None, str | None]:
    """How to know that it worked, where anything is left to be done; and what else to do."""
    return (then.works_if if steps else "", then.if_not) if then else ("", "")


def choose(inference: Inference, catalogue: Catalogue) -> tuple[list[Firing], list[SetAside]]:
    """The procedures to follow, most urgent first, and those set aside with the reason.

    One with a step that the person can't do stands back for one of the same concern that can be done as a whole.
    """
    chosen: list[Firing] = []
    set_aside: list[SetAside] = []
    fired = sorted(inference.fired("recover"), key=lambda firing: _rank(firing, inference))
    whole = [firing for firing in fired if not _broken(firing, inference)]
    for firing in [*whole, *(firing for firing in fired if firing not in whole)]:
        if why := _forbidden(firing, inference, catalogue) or _objection(firing, chosen, catalogue):
            set_aside.append(SetAside(firing.rule.id, why))
        else:
            chosen.append(firing)
    return sorted(chosen, key=fired.index), set_aside


def _broken(firing: Firing, inference: Inference) -> bool:
    """Whether the person can't do one of its steps. What is urgent is followed as far as it can be done."""
    urgent = STANDINGS.index(firing.rule.then.standing) <= LAST_URGENT
    return not urgent and any(beyond(step, inference) for step in firing.rule.then.steps or ())


def _rank(firing: Firing, inference: Inference) -> tuple:
    """Standing, then how sure its findings are, then concern, then how much it asked for."""
    then = firing.rule.then
    return (STANDINGS.index(then.standing), -_certainty(firing, inference), CONCERNS.index(then.concern),
            -len(firing.rule.when), firing.rule.id)


def _certainty(firing: Firing, inference: Inference) -> float:
    named = {condition.fact for condition in firing.rule.when}
    return min((held.certainty for held in inference.findings if held.id in named), default=1.0)


def _forbidden(firing: Firing, inference: Inference, catalogue: Catalogue) -> str:
    """Why one of its acts must not be done now, whatever the rule says; or nothing."""
    if firing.rule.file.status == "draft":
        return "it is a draft"
    for name, act in _acts(firing, catalogue).items():
        if broken := next((c for c in act.never_when if c.holds(inference.value(c.fact))), None):
            return f"{name} is never advised while {broken}"
    return ""


def _objection(firing: Firing, chosen: list[Firing], catalogue: Catalogue) -> str:
    """Why `firing` can't join those chosen, or nothing."""
    then = firing.rule.then
    for other in chosen:
        if other.rule.then.concern == then.concern:
            return f"{other.rule.id} comes first for the {then.concern}"
        if STANDINGS.index(other.rule.then.standing) == 0 and STANDINGS.index(then.standing) > LAST_URGENT:
            return f"nothing else counts until {other.rule.id} is dealt with"
        if _looks_only(firing, other, catalogue):
            return f"{other.rule.id} has a look already"
        if clash := _clash(other, firing, catalogue):
            return f"its {clash} can't stand beside {other.rule.id}"
    return ""


def _clash(one: Firing, other: Firing, catalogue: Catalogue) -> str:
    """The first act of `other` that can't stand in one plan with `one`, or nothing."""
    here, there = _acts(one, catalogue), _acts(other, catalogue)
    if any(act.moves_vent for act in here.values()) and (moves := [n for n, act in there.items() if act.moves_vent]):
        return moves[0]
    return next((name for name, act in there.items()
                 if set(act.against) & set(here) or any(name in mine.against for mine in here.values())), "")


def _looks_only(firing: Firing, other: Firing, catalogue: Catalogue) -> bool:
    """Whether a routine procedure is but a look at the dome that `other` ends with already."""
    acts, there = set(_acts(firing, catalogue)), _acts(other, catalogue)
    return firing.rule.then.standing == "routine" and acts == {"wait", "read_dome"} and "read_dome" in there


def _acts(firing: Firing, catalogue: Catalogue) -> dict[str, Act]:
    return {step.act: catalogue.acts[step.act] for step in firing.rule.then.steps or ()}


def _cautions(warned: Iterable[str], steps: list[StepSaid], catalogue: Catalogue, inference: Inference,
              wording: Wording) -> tuple[CautionSaid, ...]:
    """Cautions of fired safety rules and of the acts planned: dangers first, each once."""
    acts = {step.act for step in steps}
    needed = [name for step in steps for name in catalogue.acts[step.act].needs]
    shown = [name for name in dict.fromkeys([*warned, *needed])
             if catalogue.cautions[name].level == "danger" or not catalogue.cautions[name].bears_on
             or acts & set(catalogue.cautions[name].bears_on)]
    values = {name: fact.value for name, fact in inference.facts.items()}
    said = [CautionSaid(id=name, level=caution.level, says=wording.fill(_worded(caution, acts), values),
                        source=caution.source, defer_to=caution.defer_to, bears_on=caution.bears_on)
            for name in shown if (caution := catalogue.cautions[name])]
    return tuple(sorted(said, key=lambda caution: (LEVELS.index(caution.level),
                                                   bool(catalogue.cautions[caution.id].bears_on))))


def _worded(caution: Caution, acts: set[str]) -> str:
    """In full before a step it bears on; where nothing of the kind is advised, for whoever does it all the same."""
    return caution.says if acts & set(caution.bears_on) or not caution.otherwise else caution.otherwise
