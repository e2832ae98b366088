"""One turn: words, readings or done steps in, a Reply out. Holds the cooks; no printing, no clock of its own."""

from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import replace
from typing import Any

from advisor.addressed import addressed
from advisor.advice import Advice
from advisor.advisers import Advisers
from advisor.asides import aside, set_phrases, would_help
from advisor.changes import VENTS
from advisor.composing import Turn, compose
from advisor.cook import Cook, waiting_after
from advisor.errors import LineRefused
from advisor.facts import Value
from advisor.following import followed, in_three_lines
from advisor.halfway import rest_of
from advisor.language.heard import Heard
from advisor.language.understanding import hear
from advisor.listening import context_of, unclear
from advisor.plan import Plan
from advisor.presuming import presumed_done
from advisor.profile import CookerProfile
from advisor.remembering import recall, remember
from advisor.reply import OtherHeard, QuestionAsked, Reply
from advisor.reporting import (
    as_reported,
    completed,
    declined,
    is_small_talk,
    passing,
    stated,
    steps_done,
    taken_back,
    usable,
    vent_meant,
)
from advisor.rulebook.loader import Rulebook
from advisor.stand import Stand
from advisor.standing import Standing, asks_where, standing_of
from advisor.units import SpokenUnits, UnitStyle
from advisor.urgency import urgency
from advisor.wording import Wording

OF_THE_HANDS = {"done", "cannot", "correction"}   # a message that says itself what was done of what was told


class Conversation:
    """A conversation about one or several cookers. `now` is always passed in, in minutes, never going back.

    forecasts: whether the physics is asked as well as the rules; it takes tens of milliseconds a turn.
    spoken: units that are laid down, whatever the person speaks in.
    """

    def __init__(self, rulebook: Rulebook, profile: CookerProfile | None = None, forecasts: bool = False,
                 spoken: SpokenUnits | None = None) -> None:
        self.rulebook, self._spoken = rulebook, spoken or SpokenUnits()
        self._advisers = Advisers(rulebook, profile or CookerProfile(), forecasts)
        self.reset()

    def use(self, rulebook: Rulebook) -> None:
        """Go on with another rule base; raises and keeps the old one when the new one can't be made ready."""
        self._advisers.use(rulebook)
        self.rulebook = rulebook

    def know(self, profiles: Mapping[str, CookerProfile]) -> None:
        """What is known of single cookers, by name ("": the one nobody names); all others go by `profile`."""
        self._advisers.know(profiles)

    def profile_of(self, cooker: str) -> CookerProfile:
        """What was known of a cooker, by name, before anybody spoke."""
        return self._advisers.of(cooker).profile

    @property
    def cookers(self) -> tuple[str, ...]:
        return self._stand.names

    @property
    def current(self) -> Cook:
        """The cook in hand."""
        return self._stand.cook

    def standings(self, now: float) -> tuple[Standing, ...]:
        """Where each cooker stands that anything is known of, by name; worked out without asking the rules."""
        cooks = sorted(self._stand.cooks, key=lambda cook: cook.name)
        return tuple(standing_of(cook, self._advisers.of(cook.name).known(cook.situation, now), now) for cook in cooks)

    # -- ways in --------------------------------------------------------------------------------------------------

    def say(self, words: str, now: float, minute_of_day: int | None = None) -> Reply:
        """A message in the person's own words."""
        context = context_of(self._stand, self._spoken.heard(self._units), self.rulebook, now, minute_of_day)
        heard = stated(addressed(words, hear(words, self.rulebook.vocabulary, context)))
        if "undo" in heard.intents:
            return self._undo(now)
        with self._all_or_nothing():
            self._units = heard.units or self._units
            if heard.cooker:
                self._stand.switch(heard.cooker)
            if "which_first" in heard.intents and self._stand.names:
                return self._neediest(now)
            advise, turn = self._advisers.of(self.current.name).advise, self._amid(Turn({}, {}), now)
            if reply := aside(heard, self.current, advise, now, self.wording(), self.rulebook, turn):
                return reply
            return self._take(words, heard, now)

    def reading(self, facts: Mapping[str, Any], now: float) -> Reply:
        """Figures under situation keys, as measured. Raises ValueRefused or UnknownName; nothing is kept then."""
        vocabulary = self.rulebook.vocabulary
        if derived := [name for name in facts if name not in vocabulary.told and vocabulary[name]]:
            raise LineRefused(f"{derived[0]} is worked out, not told", "a reading of it has no meaning",
                              "send the readings it follows from")
        checked = {name: vocabulary.check(name, value) for name, value in facts.items()}
        with self._all_or_nothing():
            if isinstance(cooker := checked.get("cooker"), str):
                self._stand.switch(cooker)
            before = self._presume(checked, now)
            self._stand.tell(self._stand.current, checked, "measured", self.rulebook, now)
            return self._advise(Turn(checked, {}, before=before), now)

    def done(self, numbers: Iterable[int], now: float) -> Reply:
        """Steps of the last reply carried out. Raises LineRefused for a number that no step has."""
        numbers = list(numbers)
        known = {step.n for step in self.current.steps}
        if wrong := [number for number in numbers if number not in known]:
            raise LineRefused(f"there is no step {wrong[0]}", f"the last reply has {len(known)} steps",
                              "send the numbers of steps in it")
        with self._all_or_nothing():
            self._stand.do(numbers, self.rulebook, now)
            return self._advise(Turn({}, {}, did=tuple(numbers)), now)

    def switch(self, cooker: str, now: float) -> Reply:
        """Turn to another cooker, new if it is not known; answered with where it stands."""
        with self._all_or_nothing():
            self._stand.switch(cooker)
            return self._advise(Turn({}, {}), now)

    def status(self, now: float) -> Reply:
        """Where the cooker in hand stands."""
        self._stand.new_turn()
        return self._advise(Turn({}, {}), now)

    def reset(self) -> Reply:
        """Start over: nothing is known of any cooker."""
        self._stand = Stand()
        self._units: UnitStyle | None = None
        self._advisers.go_on({})
        return Reply(text=self.rulebook.catalogue.phrases["greeting"])

    def finish(self) -> None:
        """The cook in hand is over; what is told of its cooker from now on is about another."""
        self._stand.new_turn()
        self._stand.keep(Cook(name=self._stand.current))

    # -- kept and gone on with --------------------------------------------------------------------------------------

    @property
    def stand(self) -> Stand:
        """All cooks as they stand now; later turns leave it alone."""
        return self._stand.copy()

    @stand.setter
    def stand(self, stand: Stand) -> None:
        """Go back to how it stood."""
        self._stand = stand.copy()

    @property
    def profile(self) -> CookerProfile:
        """What was known of the cooker before anybody spoke."""
        return self._advisers.profile

    def state(self) -> dict[str, Any]:
        """All that is needed to go on from here, as JSON data."""
        return remember(self._stand, self._units) | {"found": self._advisers.found()}

    def resume(self, state: Mapping[str, Any], in_hand: str | None = None) -> None:
        """Go on from what `state` gave. in_hand: the cooker to turn to, if it is known there."""
        self._stand, self._units = recall(state, self.rulebook)
        self._advisers.go_on(state.get("found", {}))
        if in_hand is not None and in_hand in ("", *self._stand.names):
            self._stand.current = in_hand

    # -- one turn -------------------------------------------------------------------------------------------------

    @contextmanager
    def _all_or_nothing(self) -> Iterator[None]:
        """What fails halfway leaves everything as it was; what succeeds can be taken back."""
        before, units = self._stand.copy(), self._units
        self._stand.new_turn()
        try:
            yield
        except BaseException:
            self._stand, self._units = before, units
            raise
        self._stand.came_from(before)

    def _undo(self, now: float) -> Reply:
        """What the last message told counts as not said."""
        self._stand.new_turn()
        phrase = "undone" if self._stand.go_back() else "nothing_to_undo"
        return self._advise(Turn({}, {}, before=(self.rulebook.catalogue.phrases[phrase],)), now)

    def _presume(self, told: Mapping[str, Value], now: float) -> tuple[str, ...]:
        """Do the steps that a reading shows to be done, at the minute they were told; what is taken for granted, in words."""
        cook = self.current
        if not (numbers := presumed_done(cook, told, now)) or cook.waiting is None:
            return ()
        self._stand.do(numbers, self.rulebook, cook.waiting.since_min)
        return (self.rulebook.catalogue.phrases["presumed_done"],)

    def _take(self, words: str, heard: Heard, now: float) -> Reply:
        stand, rulebook, before = self._stand, self.rulebook, self.current
        heard = as_reported(words, heard, before)
        presumed = () if OF_THE_HANDS & set(heard.intents) else self._presume(heard.facts, now)
        stand.take_back(taken_back(heard))
        stand.forget(heard.lost)
        stand.tell(stand.current, completed(heard, self.current), "said", rulebook, now)
        for cooker, told in heard.others:
            stand.tell(stand.named(cooker), told, "said", rulebook, now)
        did = steps_done(heard, self.current, rulebook) if "done" in heard.intents else ()
        if did:
            stand.do(did, rulebook, now)
        stand.decline(declined(words, heard, self.current, rulebook.vocabulary))
        if "cannot" in heard.intents:
            stand.unable(vent_meant(words))
        named = {"cooker": stand.current} if heard.cooker else {}
        turn = Turn(heard.facts | named, passing(heard, rulebook.vocabulary),
                    tuple(OtherHeard(cooker=name, heard=told) for name, told in heard.others),
                    presumed + set_phrases(words, heard, before, rulebook.catalogue), usable(heard), unclear(heard, rulebook, self.wording()),
                    short=is_small_talk(heard), quiet=heard.intents == ("thanks",) and is_small_talk(heard), did=did,
                    halfway=before.situation if self._is_halfway(heard, did) else None,
                    asks_where=bool(self.current.steps) and asks_where(words, heard, rulebook.catalogue.where_words))
        return self._most_urgent(turn, now)

    def _most_urgent(self, turn: Turn, now: float) -> Reply:
        """The reply for the cooker that needs it most; what was heard of the others stands beside it."""
        if not turn.others:
            return self._advise(turn, now)
        stand, here = self._stand, self._stand.current
        told = {here: turn.heard} | {stand.named(other.cooker): other.heard for other in turn.others}
        plans = {name: self._plan(name, now) for name in told}
        for name, plan in plans.items():
            did = turn.did if name == here else ()
            waiting = waiting_after(stand[name], did, plan.steps, plan.check_in_min, now)
            stand.keep(replace(stand[name], endangered=bool(plan.lasting_dangers), waiting=waiting))
        rank = {name: urgency(plan, stand[name].situation) for name, plan in plans.items()}
        stand.current = max(told, key=lambda name: (rank[name], name == here))
        others = tuple(OtherHeard(cooker=name, heard=_unnamed(facts)) for name, facts in told.items()
                       if name != stand.current)
        heard = _unnamed(told[stand.current]) | ({"cooker": stand.current} if stand.current else {})
        did = turn.did if stand.current == here else ()
        waiting_too = tuple(self._needs_you(name) for name, plan in plans.items() if plan.steps and name != stand.current)
        return self._advise(replace(turn, heard=heard, others=others, did=did, after=waiting_too), now)

    def _neediest(self, now: float) -> Reply:
        """Turn to the cooker that needs somebody most; who else does stands behind the advice."""
        stand, phrases = self._stand, self.rulebook.catalogue.phrases
        plans = {cook.name: self._plan(cook.name, now) for cook in stand.cooks}
        rank = {name: urgency(plan, stand[name].situation) for name, plan in plans.items()}
        stand.current = max(rank, key=lambda name: (rank[name], name == stand.current))
        busy = [name for name, plan in plans.items() if plan.steps]
        first = phrases["comes_first"].replace("{cooker}", self._called(stand.current)) if busy else phrases["nothing_first"]
        waiting_too = tuple(self._needs_you(name) for name in busy if name != stand.current)
        return self._advise(Turn({}, {}, before=(first,), after=waiting_too), now)

    def _advise(self, turn: Turn, now: float) -> Reply:
        stand, turn = self._stand, self._amid(turn, now)
        advice, cook = self._advice(stand.current, now, turn.passing), stand.cook
        if turn.halfway:
            earlier = self._advisers.of(stand.current).advise(turn.halfway, now, self.wording(), turn.passing)
            advice = rest_of(earlier, advice, {name.partition("_")[0] for name in turn.heard})
        turn, waiting = followed(turn, cook, advice, self.rulebook.catalogue, self.wording(), now)
        question = None if self._is_quiet(turn) else turn.question or advice.question or self._opener(turn, advice)
        reply = compose(turn, stand.current, advice, question, self.rulebook.catalogue, self.wording())
        situation = cook.situation.remember(advice.facts, self.rulebook.vocabulary)
        cook_now = cook.advised(situation, reply.steps, question, bool(advice.plan.lasting_dangers), waiting)
        stand.keep(replace(cook_now, asked=cook.asked) if self._is_quiet(turn) else cook_now)
        if not turn.asks_where or advice.plan.is_emergency:
            return reply
        return in_three_lines(reply, self.current, advice, self.rulebook.catalogue, self.wording(), now)

    def _is_halfway(self, heard: Heard, did: tuple[int, ...]) -> bool:
        """Whether nothing was told but that one of two vents that belong together is set."""
        told = set(heard.facts) - {"choked", "vents_moved_ago_min"}
        return bool(did and told) and told < set(VENTS) and self.current.situation.is_half_set

    def _is_quiet(self, turn: Turn) -> bool:
        """Whether thanks alone were said in the middle of a cook: nothing is asked then, and what was asked stays open."""
        return turn.quiet and bool(self.current.situation.facts)

    def _amid(self, turn: Turn, now: float) -> Turn:
        """The turn with what stands around it: other cookers, and the dangers that last there."""
        stand = self._stand
        plans = {name: self._plan(name, now) for name in stand.endangered()}
        elsewhere = tuple(caution.model_copy(update={"says": f"{self._called(name)}: {caution.says}"})
                          for name, plan in plans.items() for caution in plan.lasting_dangers)
        return replace(turn, elsewhere=elsewhere, several=len(stand.cooks) > 1)

    def _plan(self, cooker: str, now: float) -> Plan:
        """What a cooker calls for, with nothing asked and nothing forecast."""
        situation = self._stand[cooker].situation
        return self._advisers.of(cooker).advise(situation, now, self.wording(), asking=False, forecasting=False).plan

    def _advice(self, cooker: str, now: float, passing: Mapping[str, Value]) -> Advice:
        return self._advisers.of(cooker).advise(self._stand[cooker].situation, now, self.wording(), passing)

    def _opener(self, turn: Turn, advice: Advice) -> QuestionAsked | None:
        """When there is nothing to do and nothing to say, ask the first thing a good hand would ask; when nothing could
        be used, say what would help."""
        if not turn.understood and (advice.plan.steps or advice.inference.fired("teach")):
            return would_help(advice, self.rulebook, self.wording())
        if advice.plan.steps or advice.inference.fired("teach"):
            return None
        opening = self._advisers.common.opening_question(self.current.situation, advice, self.wording())
        return opening or (None if turn.understood else would_help(advice, self.rulebook, self.wording()))

    def _needs_you(self, cooker: str) -> str:
        return self.rulebook.catalogue.phrases["needs_you_too"].replace("{cooker}", self._called(cooker))

    def _called(self, cooker: str) -> str:
        phrases = self.rulebook.catalogue.phrases
        return phrases["named_cooker"].replace("{cooker}", cooker) if cooker else phrases["unnamed_cooker"]

    def wording(self) -> Wording:
        """How things are said to this person."""
        return Wording(self.rulebook.vocabulary, self._spoken.said(self._units))


def _unnamed(heard: Mapping[str, Value]) -> dict[str, Value]:
    return {name: value for name, value in heard.items() if name != "cooker"}
