"""From a situation to what to do about it: derive, infer, plan, forecast, and the question worth asking. No words in."""

from collections.abc import Iterable, Mapping
from copy import copy
from dataclasses import dataclass

from advisor.derivation import derive
from advisor.facts import Fact, Value
from advisor.inference.reasoner import Reasoner
from advisor.inference.records import Inference
from advisor.outlook.prospect import Prospect
from advisor.outlook.views import Held, Outlook
from advisor.plan import Plan, make_plan
from advisor.profile import CookerProfile
from advisor.questions import KEEP_CLEAR, choose_question, phrase
from advisor.reply import QuestionAsked
from advisor.rulebook.loader import Rulebook
from advisor.situation import Situation
from advisor.ventchart import holding
from advisor.wording import Wording

NO_PROSPECT = Prospect(None)


@dataclass(frozen=True, slots=True)
class Advice:
    """What follows from one situation at one minute. prospect: when the dome is back, as far as it can be forecast."""

    inference: Inference
    plan: Plan
    question: QuestionAsked | None
    prospect: Prospect = NO_PROSPECT

    @property
    def facts(self) -> Mapping[str, Fact]:
        return self.inference.facts


class Adviser:
    """A rule base and a cooker profile made ready to advise. The same situation gives the same advice, as far as the
    physics goes on with what it `found`.

    forecasts: whether the physics is asked as well.
    """

    def __init__(self, rulebook: Rulebook, profile: CookerProfile, forecasts: bool = False) -> None:
        self.rulebook, self.profile = rulebook, profile
        self._outlook = Outlook(profile) if forecasts else None
        self._reasoner = Reasoner(rulebook)

    def on(self, profile: CookerProfile) -> "Adviser":
        """The same for another cooker; the rule base, which takes longest, is not made ready again."""
        if profile == self.profile:
            return self
        other = copy(self)
        other.profile, other._outlook = profile, Outlook(profile) if self._outlook else None
        return other

    @property
    def found(self) -> list[Held]:
        """What the physics has found and goes on using, as plain data."""
        return self._outlook.holds if self._outlook else []

    def go_on(self, found: Iterable[Held]) -> None:
        """Use what was `found` before; nothing: find all anew."""
        if self._outlook and (found or self._outlook.holds):
            self._outlook.go_on(found)

    def advise(self, situation: Situation, now: float, wording: Wording, passing: Mapping[str, Value] | None = None,
               asking: bool = True, forecasting: bool = True) -> Advice:
        """Advice on `situation` at the minute `now`; `passing` are facts that hold for this message only.

        asking, forecasting: whether a question is looked for and the physics asked; both cost many times the rest.
        """
        inference, plan = self._consider(situation, now, wording, passing or {})
        question = self._question(situation, now, wording, inference, plan) if asking else None
        view = self._outlook.on(situation, inference.facts, now) if self._outlook and forecasting else None
        if view is None:
            return Advice(inference, plan, question)
        if kinds := {firing.rule.then.sized_by for firing in plan.chosen} - {None}:
            chart = holding(self.rulebook.catalogue.vent_chart, self.profile, view.known.target_f)
            sized = view.sized(kinds, situation, inference.facts, chart, now)
            inference, plan = self._consider(situation, now, wording, passing or {}, sized)
        return Advice(inference, plan, question,
                      view.prospect(plan.steps, self.rulebook.catalogue.phrases, wording))

    def known(self, situation: Situation, now: float) -> dict[str, Fact]:
        """What is known of `situation` at the minute `now` by telling and by arithmetic alone."""
        return derive(situation, self.rulebook.vocabulary, self.rulebook.catalogue.vent_chart, self.profile, now)

    def opening_question(self, situation: Situation, advice: Advice, wording: Wording) -> QuestionAsked | None:
        """What to ask when nothing better is known to ask: the first opener that is open."""
        if KEEP_CLEAR in advice.facts:
            return None
        open_facts = (fact for fact in self.rulebook.catalogue.openers
                      if fact not in advice.facts and fact not in situation.declined)
        fact = next(open_facts, None)
        return phrase(fact, self.rulebook, advice.inference, wording) if fact else None

    def _consider(self, situation: Situation, now: float, wording: Wording,
                  passing: Mapping[str, Value], sized: Mapping[str, Fact] | None = None) -> tuple[Inference, Plan]:
        facts = self.known(situation, now)
        facts |= {name: Fact(name, value, "said", now) for name, value in passing.items()}
        facts |= sized or {}
        inference = self._reasoner.infer(facts)
        return inference, make_plan(inference, self.rulebook.catalogue, wording)

    def _question(self, situation: Situation, now: float, wording: Wording, inference: Inference,
                  plan: Plan) -> QuestionAsked | None:
        def suppose(fact: str, value: Value) -> tuple[Inference, Plan]:
            imagined = situation.tell({fact: value}, "said", self.rulebook.vocabulary, now)
            return self._consider(imagined, now, wording, {})

        if plan.is_emergency or inference.value("nothing_to_ask"):
            return None  # hands first, questions later
        return choose_question(self.rulebook, inference, plan, situation.declined, suppose, wording)
