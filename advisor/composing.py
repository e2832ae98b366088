"""Advice and what one message brought, to a Reply. Pure; decides nothing about the fire."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from advisor.advice import Advice
from advisor.derivation import told_only
from advisor.explanation import firings_said
from advisor.facts import Value
from advisor.reply import AnswerSaid, CautionSaid, FindingSaid, OtherHeard, QuestionAsked, Reply
from advisor.rulebook.catalogue import Catalogue
from advisor.rulebook.schema import RuleFile
from advisor.situation import Situation
from advisor.telling import tell, tell_short
from advisor.wording import Wording


@dataclass(frozen=True, slots=True)
class Turn:
    """What one message brought.

    heard: facts stated in it; passing: facts that hold for this message only; others: facts about further cookers;
    before, after: lines that come ahead of the advice, and behind it; question: one that must be asked, such as "°F or °C?";
    short: whether the steps in hand need not be said again; quiet: whether no question is due; elsewhere: dangers that last on the other cookers;
    several: whether more than one cooker is going; did: numbers of the steps reported done; look_again_min: when
    to look again, where the wait of a step done counts and not that of the next; asks_where: whether it only asks where
    things stand, which three lines answer; on_course: whether the plan said before still holds; halfway: how it stood before
    one of two vents that belong together was set, where that is all that was told.
    """

    heard: Mapping[str, Value]
    passing: Mapping[str, Value]
    others: tuple[OtherHeard, ...] = ()
    before: tuple[str, ...] = ()
    understood: bool = True
    question: QuestionAsked | None = None
    short: bool = False
    quiet: bool = False
    elsewhere: tuple[CautionSaid, ...] = ()
    several: bool = False
    did: tuple[int, ...] = ()
    look_again_min: float | None = None
    asks_where: bool = False
    on_course: bool = False
    after: tuple[str, ...] = ()
    halfway: Situation | None = None

    @property
    def brings(self) -> bool:
        """Whether there is anything in it that could change the plan or a timer."""
        return bool(self.heard.keys() - {"cooker"} or self.did)


def compose(turn: Turn, cooker: str, advice: Advice, question: QuestionAsked | None, catalogue: Catalogue,
            wording: Wording) -> Reply:
    """The whole reply. When there is nothing to do, to ask or to say, it says to leave the fire alone."""
    answers, findings = answers_of(advice, wording), _findings(advice, catalogue, wording)
    before = turn.before
    if advice.plan.is_emergency or advice.plan.lasting_dangers:
        before = _amid_danger(before, catalogue.phrases)
    if not (advice.plan.steps or question or answers or before):
        before = (catalogue.phrases["leave_alone"],)
    situation = told_only(advice.facts, wording.vocabulary)
    named = {"cooker": cooker} if turn.several and cooker and situation else {}
    return Reply(
        heard=dict(turn.heard), also_heard=turn.others, cooker=cooker or None,
        situation=situation | named, findings=findings, steps=advice.plan.steps,
        cautions=(*turn.elsewhere, *advice.plan.cautions), asks=question, answers=answers,
        forecast=advice.prospect.planned, check_in_min=turn.look_again_min or advice.plan.check_in_min,
        why=firings_said(advice.inference), understood=turn.understood,
        text=_text(turn, before, answers, findings, advice, question, catalogue, wording),
    )


def _text(turn: Turn, before: tuple[str, ...], answers: tuple[AnswerSaid, ...], findings: tuple[FindingSaid, ...],
          advice: Advice, question: QuestionAsked | None, catalogue: Catalogue, wording: Wording) -> str:
    """In short after small talk and after a question that leaves the plan alone; whole after anything else, and always while it is an emergency."""
    phrases, plan = catalogue.phrases, advice.plan
    if turn.short and not plan.is_emergency:
        lines = [*(answer.says for answer in answers), *before]
        return tell_short([*turn.elsewhere, *plan.cautions], lines, question, phrases)
    look_again = turn.look_again_min or plan.first_wait_min
    return tell(before, answers, findings, plan, turn.elsewhere, advice.prospect.says, look_again, turn.after, question,
                phrases, wording, turn.on_course)


def _amid_danger(before: Iterable[str], phrases: Mapping[str, str]) -> tuple[str, ...]:
    """Small talk and what could not be used, as they are said while somebody is in danger."""
    instead = {phrases[name]: phrases["danger_first"] for name in ("off_topic", "not_used", "not_understood")}
    instead |= dict.fromkeys((phrases["greeting"], phrases["thanks"]), "")
    return tuple(line for said in before if (line := instead.get(said, said)))


def answers_of(advice: Advice, wording: Wording, reasons: bool = False) -> tuple[AnswerSaid, ...]:
    """What rules of teach/ say to the question in hand; with the reason where it was asked for and is not in the answer."""
    words = {name: fact.value for name, fact in advice.facts.items()}
    return tuple(AnswerSaid(says=wording.fill(_told(firing.rule.file, reasons), words), because=firing.rule.id,
                            source=firing.rule.file.source) for firing in advice.inference.fired("teach"))


def _told(rule: RuleFile, reasons: bool) -> str:
    says = rule.then.tell or ""
    return says if not reasons or says.startswith("Because") else f"{says.rstrip()} {rule.because}"


def _findings(advice: Advice, catalogue: Catalogue, wording: Wording) -> tuple[FindingSaid, ...]:
    words = {name: fact.value for name, fact in advice.facts.items()}
    return tuple(FindingSaid(id=held.id, says=wording.fill(catalogue.findings[held.id].says, words),
                             certainty=held.certainty, because=tuple(evidence.rule for evidence in held.evidence))
                 for held in advice.inference.findings)
