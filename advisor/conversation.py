"""One turn: words, readings or done steps in, a Reply out. Holds the cooks; no printing, no clock of its own."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from typing import Any

from advisor.advice import Advice, Adviser
from advisor.cook import Cook
from advisor.cooknames import same_cooker
from advisor.derivation import told_only
from advisor.errors import LineRefused
from advisor.explanation import firings_said, why, why_not
from advisor.facts import Value
from advisor.language.heard import Context, Heard
from advisor.language.understanding import hear
from advisor.profile import CookerProfile
from advisor.reply import AnswerSaid, FindingSaid, OtherHeard, QuestionAsked, Reply
from advisor.rulebook.loader import Rulebook
from advisor.situation import Situation
from advisor.telling import step_lines, tell
from advisor.units import UnitStyle
from advisor.urgency import urgency
from advisor.wording import Wording

TALK = ("greeting", "thanks", "off_topic", "cannot", "declined", "correction", "done")


@dataclass(frozen=True, slots=True)
class _Turn:
    """What one message brought, beside the facts: for composing the reply."""

    heard: Mapping[str, Value]
    passing: Mapping[str, Value]
    others: tuple[OtherHeard, ...] = ()
    before: tuple[str, ...] = ()
    understood: bool = True
    question: QuestionAsked | None = None


class Conversation:
    """A conversation about one or several cookers. `now` is always passed in, in minutes."""

    def __init__(self, rulebook: Rulebook, profile: CookerProfile | None = None) -> None:
        self._rulebook, self._profile = rulebook, profile or CookerProfile()
        self._adviser = Adviser(rulebook, self._profile)
        self.reset()

    # -- ways in --------------------------------------------------------------------------------------------------

    def say(self, words: str, now: float, minute_of_day: int | None = None) -> Reply:
        """A message in the person's own words."""
        heard = hear(words, self._rulebook.vocabulary, self._context(now, minute_of_day))
        self._units = heard.units or self._units
        if heard.cooker:
            self._switch(heard.cooker)
        if explained := self._explain(heard, now):
            return explained
        return self._take(heard, now)

    def reading(self, facts: Mapping[str, Any], now: float) -> Reply:
        """Figures under situation keys, as measured. Raises ValueRefused or UnknownName; nothing is kept then."""
        vocabulary = self._rulebook.vocabulary
        for name in facts:
            if name not in vocabulary.told:
                vocabulary[name]  # raises with the nearest spelling, unless it is derived
                raise LineRefused(f"{name} is worked out, not told", "a reading of it has no meaning",
                                  "send the readings it follows from")
        checked = {name: vocabulary.check(name, value) for name, value in facts.items()}
        self._tell(self._current, checked, "measured", now)
        return self._advise(_Turn(checked, {}), now)

    def done(self, numbers: Iterable[int], now: float) -> Reply:
        """Steps of the last reply carried out. Raises LineRefused for a number that no step has."""
        numbers = list(numbers)
        known = {step.n for step in self._cook.steps}
        if wrong := [number for number in numbers if number not in known]:
            raise LineRefused(f"there is no step {wrong[0]}", f"the last reply has {len(known)} steps",
                              "send the numbers of steps in it")
        self._do(numbers, now)
        return self._advise(_Turn({}, {}), now)

    def switch(self, cooker: str, now: float) -> Reply:
        """Turn to another cooker, new if it is not known; answered with where it stands."""
        self._switch(cooker)
        return self._advise(_Turn({}, {}), now)

    def reset(self) -> Reply:
        """Start over: nothing is known of any cooker."""
        self._cooks: dict[str, Cook] = {"": Cook()}
        self._current = ""
        self._units: UnitStyle | None = None
        return Reply(text=self._phrase("greeting"))

    def status(self, now: float) -> Reply:
        """Where things stand, unchanged."""
        return self._advise(_Turn({}, {}), now)

    @property
    def cookers(self) -> tuple[str, ...]:
        return tuple(name for name in self._cooks if name)

    @property
    def current(self) -> Cook:
        return self._cook

    @property
    def rulebook(self) -> Rulebook:
        return self._rulebook

    def use(self, rulebook: Rulebook) -> None:
        """Go on with another rule base; raises and keeps the old one when the new one can't be made ready."""
        self._adviser = Adviser(rulebook, self._profile)
        self._rulebook = rulebook

    # -- one turn -------------------------------------------------------------------------------------------------

    def _take(self, heard: Heard, now: float) -> Reply:
        facts = self._paired(heard.facts)
        self._tell(self._current, facts, "said", now)
        for cooker, told in heard.others:
            self._tell(self._named(cooker), told, "said", now)
        if "done" in heard.intents:
            self._do(self._numbers_done(heard), now)
        if "declined" in heard.intents and self._cook.asked:
            self._keep(replace(self._cook, situation=self._cook.situation.decline(self._cook.asked.fact)))
        others = tuple(OtherHeard(cooker=name, heard=told) for name, told in heard.others)
        passing = {"about": heard.about} if heard.about else {}
        turn = _Turn(heard.facts, passing, others, self._lines_before(heard), understood(heard),
                     self._unclear(heard))
        return self._most_urgent(turn, now)

    def _paired(self, facts: Mapping[str, Value]) -> Mapping[str, Value]:
        """A reading given in answer to our question belongs to the distance told just before: that says the target."""
        cook = self._cook
        over = cook.situation.facts.get("over_f")
        if cook.asked and cook.asked.fact == "dome_f" and "dome_f" in facts and over and "target_f" not in facts:
            return {**facts, "target_f": float(facts["dome_f"]) - float(over.value)}
        return facts

    def _numbers_done(self, heard: Heard) -> tuple[int, ...]:
        known = {step.n for step in self._cook.steps}
        if heard.all_done:
            return tuple(step.n for step in self._cook.steps if not step.when)
        if heard.done_steps:
            return tuple(number for number in heard.done_steps if number in known)
        return self._cook.steps_in_hand() if not heard.facts else ()

    def _most_urgent(self, turn: _Turn, now: float) -> Reply:
        """The reply for the cooker that needs it most; what was heard of the others stands beside it."""
        if not turn.others:
            return self._advise(turn, now)
        here = self._current
        told = {here: dict(turn.heard)} | {self._named(other.cooker): dict(other.heard) for other in turn.others}
        ranks = {name: urgency(self._advice(name, now, {}).plan, self._cooks[name].situation) for name in told}
        self._current = max(told, key=lambda name: (ranks[name], name == here))
        others = tuple(OtherHeard(cooker=name, heard=facts) for name, facts in told.items() if name != self._current)
        return self._advise(replace(turn, heard=told[self._current], others=others), now)

    def _advise(self, turn: _Turn, now: float) -> Reply:
        advice = self._advice(self._current, now, turn.passing)
        question = turn.question or advice.question or self._opener(turn, advice)
        reply = self._compose(turn, advice, question, now)
        self._keep(self._cook.advised(self._cook.situation, reply.steps, question))
        return reply

    def _compose(self, turn: _Turn, advice: Advice, question: QuestionAsked | None, now: float) -> Reply:
        wording = self._wording()
        words = {name: fact.value for name, fact in advice.facts.items()}
        answers = tuple(AnswerSaid(says=wording.fill(firing.rule.then.tell or "", words), because=firing.rule.id,
                                   source=firing.rule.file.source) for firing in advice.inference.fired("teach"))
        findings = self._findings(advice, wording)
        before = turn.before
        if not (advice.plan.steps or question or answers or before):
            before = (self._phrase("leave_alone"),)
        text = tell(before, answers, findings, advice.plan, question, self._rulebook.catalogue.phrases, wording)
        return Reply(heard=dict(turn.heard), also_heard=turn.others, cooker=self._current or None,
                     situation=told_only(advice.facts, self._rulebook.vocabulary), findings=findings,
                     steps=advice.plan.steps, cautions=advice.plan.cautions, asks=question, answers=answers,
                     check_in_min=advice.plan.check_in_min, why=firings_said(advice.inference), text=text,
                     understood=turn.understood)

    def _findings(self, advice: Advice, wording: Wording) -> tuple[FindingSaid, ...]:
        words = {name: fact.value for name, fact in advice.facts.items()}
        known = self._rulebook.catalogue.findings
        return tuple(FindingSaid(id=held.id, says=wording.fill(known[held.id].says, words), certainty=held.certainty,
                                 because=tuple(evidence.rule for evidence in held.evidence))
                     for held in advice.inference.findings)

    # -- why, why not, what if: nothing is changed ------------------------------------------------------------------

    def _explain(self, heard: Heard, now: float) -> Reply | None:
        if not {"why", "why_not", "what_if"} & set(heard.intents) or heard.facts:
            return None
        advice = self._advice(self._current, now, {})
        if "what_if" in heard.intents:
            return self._what_if(heard, advice, now)
        if "why_not" in heard.intents:
            line = why_not(heard.argument, self._rulebook, advice.inference, advice.plan, self._wording())
            return self._unchanged(advice, [line or self._phrase("why_not_unknown")])
        lines = why(advice.inference, advice.plan, self._wording())
        return self._unchanged(advice, lines or [self._phrase("nothing_to_explain")])

    def _what_if(self, heard: Heard, advice: Advice, now: float) -> Reply:
        if not heard.supposed:
            return self._unchanged(advice, [self._phrase("what_if_unclear")])
        imagined = self._cook.situation.tell(heard.supposed, "assumed", self._rulebook.vocabulary, now)
        supposed = self._adviser.advise(imagined, now, self._wording())
        inner = self._compose(_Turn(heard.supposed, {}), supposed, supposed.question, now)
        reply = self._unchanged(advice, [])
        return reply.model_copy(update={"what_if": inner, "text": inner.text})

    def _unchanged(self, advice: Advice, lines: list[str]) -> Reply:
        """The reply that stands, with `lines` as its text."""
        reply = self._compose(_Turn({}, {}), advice, self._cook.asked, 0.0)
        return reply.model_copy(update={"text": "\n".join(lines)})

    # -- small things -----------------------------------------------------------------------------------------------

    @property
    def _cook(self) -> Cook:
        return self._cooks[self._current]

    def _keep(self, cook: Cook) -> None:
        self._cooks[self._current] = cook

    def _do(self, numbers: Iterable[int], now: float) -> None:
        self._keep(self._cook.do(numbers, self._rulebook, now))

    def _tell(self, cooker: str, facts: Mapping[str, Value], origin: str, now: float) -> None:
        cook = self._cooks[cooker]
        told = {name: value for name, value in facts.items()
                if name != "cooker" and name not in self._rulebook.vocabulary.for_one_message}
        situation: Situation = cook.situation.tell(told, origin, self._rulebook.vocabulary, now)
        self._cooks[cooker] = replace(cook, situation=situation)

    def _advice(self, cooker: str, now: float, passing: Mapping[str, Value]) -> Advice:
        return self._adviser.advise(self._cooks[cooker].situation, now, self._wording(), passing)

    def _switch(self, cooker: str) -> None:
        """To another cooker. The unnamed one takes the first name that is used, if nothing is known of it yet."""
        self._current = self._named(cooker)

    def _named(self, cooker: str) -> str:
        """The name under which a cooker is kept, made if new."""
        found = next((name for name in self._cooks if name and same_cooker(name, cooker)), None)
        if found is None:
            self._cooks[cooker] = Cook(name=cooker)
        return found or cooker

    def _context(self, now: float, minute_of_day: int | None) -> Context:
        cook = self._cook
        facts = {name: fact.value for name, fact in cook.situation.at(self._rulebook.vocabulary, now).items()}
        return Context(asked=cook.asked.fact if cook.asked else None, choices=cook.asked.choices if cook.asked else (),
                       facts=facts, units=self._units, minute_of_day=minute_of_day, cookers=self.cookers)

    def _wording(self) -> Wording:
        return Wording(self._rulebook.vocabulary, self._units or UnitStyle())

    def _phrase(self, name: str) -> str:
        return self._rulebook.catalogue.phrases[name]

    def _lines_before(self, heard: Heard) -> tuple[str, ...]:
        lines = list(heard.refused)
        if not understood(heard) and "off_topic" not in heard.intents and not lines:
            lines.append(self._phrase("not_understood"))
        return tuple(lines + [self._phrase(_PHRASE_OF.get(intent, intent)) for intent in heard.intents
                              if intent in TALK])

    def _unclear(self, heard: Heard) -> QuestionAsked | None:
        if not heard.unclear:
            return None
        fact = heard.unclear.could_be[0][0]
        says = self._phrase("unclear").replace("{said}", heard.unclear.said)
        return QuestionAsked(fact=fact, says=says, choices=("Fahrenheit", "Celsius"),
                             because="the two are far apart")

    def _opener(self, turn: _Turn, advice: Advice) -> QuestionAsked | None:
        """When there is nothing to do and nothing to say, ask the first thing a good hand would ask."""
        if advice.plan.steps or (turn.understood and (turn.passing or advice.inference.fired("teach"))):
            return None
        return self._adviser.opening_question(self._cook.situation, advice, self._wording())


_PHRASE_OF = {"correction": "corrected"}


def understood(heard: Heard) -> bool:
    """Whether the message could be used; a refused value alone is no use."""
    if not heard.understood:
        return False
    return bool(heard.facts or heard.others or heard.about or heard.unclear or heard.intents)


def status_lines(reply: Reply) -> list[str]:
    """Where things stand, in three lines at most: the finding, the step in hand, when to look again."""
    lines = [finding.says for finding in reply.findings[:1]] + step_lines(reply.steps[:1])
    return lines + ([f"Look again in {reply.check_in_min:g} minutes."] if reply.check_in_min else [])
