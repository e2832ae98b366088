"""One turn: words, readings or done steps in, a Reply out. Holds the cooks; no printing, no clock of its own."""

from collections.abc import Iterable, Mapping
from dataclasses import replace
from typing import Any

from advisor.advice import Advice, Adviser
from advisor.asides import aside, set_phrases
from advisor.composing import Turn, compose
from advisor.cook import Cook
from advisor.errors import LineRefused
from advisor.facts import Value
from advisor.language.heard import Context, Heard
from advisor.language.understanding import hear
from advisor.profile import CookerProfile
from advisor.reply import OtherHeard, QuestionAsked, Reply
from advisor.rulebook.loader import Rulebook
from advisor.situation import VENTS
from advisor.stand import Stand
from advisor.units import UnitStyle
from advisor.urgency import urgency
from advisor.wording import Wording


class Conversation:
    """A conversation about one or several cookers. `now` is always passed in, in minutes, never going back.

    forecasts: whether the physics is asked as well as the rules; it takes tens of milliseconds a turn.
    """

    def __init__(self, rulebook: Rulebook, profile: CookerProfile | None = None, forecasts: bool = False) -> None:
        self.rulebook, self._profile, self._forecasts = rulebook, profile or CookerProfile(), forecasts
        self._adviser = Adviser(rulebook, self._profile, forecasts)
        self.reset()

    def use(self, rulebook: Rulebook) -> None:
        """Go on with another rule base; raises and keeps the old one when the new one can't be made ready."""
        self._adviser = Adviser(rulebook, self._profile, self._forecasts)
        self.rulebook = rulebook

    @property
    def cookers(self) -> tuple[str, ...]:
        return self._stand.names

    @property
    def current(self) -> Cook:
        """The cook in hand."""
        return self._stand.cook

    # -- ways in --------------------------------------------------------------------------------------------------

    def say(self, words: str, now: float, minute_of_day: int | None = None) -> Reply:
        """A message in the person's own words."""
        heard = hear(words, self.rulebook.vocabulary, self._context(now, minute_of_day))
        self._units = heard.units or self._units
        if heard.cooker:
            self._stand.switch(heard.cooker)
        advise = self._adviser.advise
        if reply := aside(heard, self._stand.cook, advise, now, self._wording(), self.rulebook):
            return reply
        return self._take(heard, now)

    def reading(self, facts: Mapping[str, Any], now: float) -> Reply:
        """Figures under situation keys, as measured. Raises ValueRefused or UnknownName; nothing is kept then."""
        vocabulary = self.rulebook.vocabulary
        if derived := [name for name in facts if name not in vocabulary.told and vocabulary[name]]:
            raise LineRefused(f"{derived[0]} is worked out, not told", "a reading of it has no meaning",
                              "send the readings it follows from")
        checked = {name: vocabulary.check(name, value) for name, value in facts.items()}
        if isinstance(cooker := checked.get("cooker"), str):
            self._stand.switch(cooker)
        self._stand.tell(self._stand.current, checked, "measured", self.rulebook, now)
        return self._advise(Turn(checked, {}), now)

    def done(self, numbers: Iterable[int], now: float) -> Reply:
        """Steps of the last reply carried out. Raises LineRefused for a number that no step has."""
        numbers = list(numbers)
        known = {step.n for step in self.current.steps}
        if wrong := [number for number in numbers if number not in known]:
            raise LineRefused(f"there is no step {wrong[0]}", f"the last reply has {len(known)} steps",
                              "send the numbers of steps in it")
        self._stand.do(numbers, self.rulebook, now)
        return self._advise(Turn({}, {}), now)

    def switch(self, cooker: str, now: float) -> Reply:
        """Turn to another cooker, new if it is not known; answered with where it stands."""
        self._stand.switch(cooker)
        return self._advise(Turn({}, {}), now)

    def status(self, now: float) -> Reply:
        """Where the cooker in hand stands."""
        return self._advise(Turn({}, {}), now)

    def reset(self) -> Reply:
        """Start over: nothing is known of any cooker."""
        self._stand = Stand()
        self._units: UnitStyle | None = None
        return Reply(text=self.rulebook.catalogue.phrases["greeting"])

    # -- one turn -------------------------------------------------------------------------------------------------

    def _take(self, heard: Heard, now: float) -> Reply:
        stand, rulebook = self._stand, self.rulebook
        stand.tell(stand.current, self._completed(heard), "said", rulebook, now)
        for cooker, told in heard.others:
            stand.tell(stand.named(cooker), told, "said", rulebook, now)
        if "done" in heard.intents:
            stand.do(self._steps_done(heard), rulebook, now)
        if "declined" in heard.intents:
            stand.decline()
        turn = Turn(heard.facts, {"about": heard.about} if heard.about else {},
                    tuple(OtherHeard(cooker=name, heard=told) for name, told in heard.others),
                    set_phrases(heard, rulebook.catalogue), usable(heard), self._unclear(heard))
        return self._most_urgent(turn, now)

    def _completed(self, heard: Heard) -> Mapping[str, Value]:
        """What the words state, with what they plainly entail here.

        A reading given in answer to our question belongs to the distance told before: that says the target.
        Vents reported done were moved just now.
        """
        facts, asked, over = heard.facts, self.current.asked, self.current.situation.facts.get("over_f")
        if asked and asked.fact == "dome_f" and "dome_f" in facts and over and not {"target_f", "over_f"} & set(facts):
            return {**facts, "target_f": float(facts["dome_f"]) - float(over.value)}
        if "done" in heard.intents and set(VENTS) & set(facts):
            return {"vents_moved_ago_min": 0.0, **facts}
        return facts

    def _steps_done(self, heard: Heard) -> tuple[int, ...]:
        """Which steps a report of "done" means: those named, all, or those in hand that the words don't gainsay."""
        steps = self.current.steps
        if heard.all_done:
            return tuple(step.n for step in steps if not step.when)
        if heard.done_steps:
            return tuple(step.n for step in steps if step.n in heard.done_steps)
        return self.current.steps_in_hand_that_agree(heard.facts, self.rulebook)

    def _most_urgent(self, turn: Turn, now: float) -> Reply:
        """The reply for the cooker that needs it most; what was heard of the others stands beside it."""
        if not turn.others:
            return self._advise(turn, now)
        stand, here = self._stand, self._stand.current
        told = {here: turn.heard} | {stand.named(other.cooker): other.heard for other in turn.others}
        rank = {name: urgency(self._advice(name, now, {}).plan, stand[name].situation) for name in told}
        stand.current = max(told, key=lambda name: (rank[name], name == here))
        others = tuple(OtherHeard(cooker=name, heard=dict(facts)) for name, facts in told.items()
                       if name != stand.current)
        return self._advise(replace(turn, heard=told[stand.current], others=others), now)

    def _advise(self, turn: Turn, now: float) -> Reply:
        stand = self._stand
        advice = self._advice(stand.current, now, turn.passing)
        question = turn.question or advice.question or self._opener(turn, advice)
        reply = compose(turn, stand.current, advice, question, self.rulebook.catalogue, self._wording())
        situation = stand.cook.situation.remember(advice.facts, self.rulebook.vocabulary)
        stand.keep(stand.cook.advised(situation, reply.steps, question))
        return reply

    def _advice(self, cooker: str, now: float, passing: Mapping[str, Value]) -> Advice:
        return self._adviser.advise(self._stand[cooker].situation, now, self._wording(), passing)

    def _opener(self, turn: Turn, advice: Advice) -> QuestionAsked | None:
        """When there is nothing to do and nothing to say, ask the first thing a good hand would ask."""
        if advice.plan.steps or advice.inference.fired("teach"):
            return None
        return self._adviser.opening_question(self.current.situation, advice, self._wording())

    def _unclear(self, heard: Heard) -> QuestionAsked | None:
        if not heard.unclear:
            return None
        says = self._wording().fill(self.rulebook.catalogue.phrases["unclear"], {"said": heard.unclear.said})
        return QuestionAsked(fact=heard.unclear.could_be[0][0], says=says, choices=("Fahrenheit", "Celsius"),
                             because="the two are far apart")

    def _context(self, now: float, minute_of_day: int | None) -> Context:
        cook = self.current
        facts = {name: fact.value for name, fact in cook.situation.at(self.rulebook.vocabulary, now).items()}
        asked = cook.asked
        return Context(asked=asked.fact if asked else None, choices=asked.choices if asked else (), facts=facts,
                       units=self._units, minute_of_day=minute_of_day, cookers=self.cookers)

    def _wording(self) -> Wording:
        return Wording(self.rulebook.vocabulary, self._units or UnitStyle())


def usable(heard: Heard) -> bool:
    """Whether the message brought anything to go on; a refused value or small talk off the subject does not."""
    return bool(heard.facts or heard.others or heard.about or heard.unclear or set(heard.intents) - {"off_topic"})
