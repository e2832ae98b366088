"""One cooker going: its situation, what was advised last, what was asked, which wait runs. Frozen; every turn makes a
new one."""

import math
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, field, replace

from advisor.changes import move_name
from advisor.facts import Value
from advisor.reply import QuestionAsked, StepSaid
from advisor.rulebook.catalogue import Act
from advisor.rulebook.loader import Rulebook
from advisor.situation import Situation

DISCARD = "discard_food"
IDLE = ("wait", "read_dome", "change_nothing")  # nothing in them that hands could fail at
MOST_DEEDS = 200
MOST_ASKED = 2  # a question that went unanswered twice is dropped
NEAR_OPENING = 0.035  # two openings closer than this can't be told apart by eye: judgement
CRACK, WIDEST_CRACK = 0.05, 0.11   # what "a crack" is heard as, and the widest opening advised that people call so: judgement
SAME_WAIT_MIN = 1.0  # two ends of a wait closer than this are one: steps count in whole minutes


@dataclass(frozen=True, slots=True)
class Waiting:
    """A time that runs until somebody should look again, in minutes of the conversation's clock.

    hands_off: nothing is to be done until then; otherwise the hands have the steps in hand to do meanwhile.
    """

    since_min: float
    until_min: float
    hands_off: bool = False


@dataclass(frozen=True, slots=True)
class Deed:
    """A step that was carried out at a minute: its act, and the words it was given in."""

    at_min: float
    act: str
    says: str


@dataclass(frozen=True, slots=True)
class Cook:
    """steps: the last advice; steps_done: numbers reported done; asked: the question that stands open;
    endangered: whether the last reply held a danger that lasts; waiting: the timer that runs, or has run out unanswered;
    deeds: steps carried out, oldest first.
    """

    name: str = ""
    situation: Situation = field(default_factory=Situation)
    steps: tuple[StepSaid, ...] = ()
    steps_done: frozenset[int] = frozenset()
    asked: QuestionAsked | None = None
    asked_times: tuple[str, ...] = ()
    endangered: bool = False
    waiting: Waiting | None = None
    deeds: tuple[Deed, ...] = ()

    def advised(self, situation: Situation, steps: tuple[StepSaid, ...], asked: QuestionAsked | None,
                endangered: bool = False, waiting: Waiting | None = None) -> "Cook":
        """The cook after a reply. A question asked in vain MOST_ASKED times is given up."""
        times = (*self.asked_times, asked.fact) if asked else self.asked_times
        if asked and times.count(asked.fact) > MOST_ASKED:
            situation = situation.decline(asked.fact)
        done = self.steps_done if steps == self.steps else frozenset()
        return replace(self, situation=situation, steps=steps, steps_done=done, asked=asked, asked_times=times,
                       endangered=endangered, waiting=waiting)

    def steps_in_hand(self) -> tuple[int, ...]:
        """The steps due now: from the first not done to the first with a wait, or to one that waits for a reading."""
        return tuple(step.n for step in in_hand(step for step in self.steps if step.n not in self.steps_done))

    def steps_in_hand_that_agree(self, told: Mapping[str, Value], rulebook: Rulebook) -> tuple[int, ...]:
        """The steps in hand without those whose effect the words gainsay ("done, but the top is a quarter open")."""
        left = {step.n: effects(step, rulebook.catalogue.acts[step.act]) for step in self.steps}
        return tuple(n for n in self.steps_in_hand()
                     if all(_agrees(told.get(name, value), value) for name, value in left[n].items()))

    def do(self, numbers: Iterable[int], rulebook: Rulebook, now: float) -> "Cook":
        """The cook after steps were carried out: what each act leaves behind is told, origin derived."""
        situation = self.situation
        numbers = set(numbers)
        done = tuple(step for step in self.steps if step.n in numbers)
        minutes = self._done_at(done, now)
        for step, minute in zip(done, minutes, strict=True):
            left = {**shown_by(step, situation), **effects(step, rulebook.catalogue.acts[step.act])}
            situation = situation.tell(left, "derived", rulebook.vocabulary, minute)
            if step.act == DISCARD:
                situation = situation.without_food()
        deeds = tuple(Deed(minute, step.act, step.says) for step, minute in zip(done, minutes, strict=True))
        cook = replace(self, steps_done=self.steps_done | numbers, deeds=(self.deeds + deeds)[-MOST_DEEDS:])
        half = minutes[-1] if minutes and cook._half_set(rulebook) else None
        return replace(cook, situation=replace(situation, half_set_at=half))

    def _done_at(self, done: tuple[StepSaid, ...], now: float) -> list[float]:
        """When steps that are reported together were done: the waits between them were kept, as far as there was time."""
        told = self.waiting.since_min if self.waiting else now
        waits = [step.wait_min or 0.0 for step in done[:-1]] + [0.0]
        return [max(min(told, now), now - sum(waits[n:])) for n in range(len(done))]

    def _half_set(self, rulebook: Rulebook) -> bool:
        """Whether one vent of those that are moved together is set and the other is not yet."""
        moving = {step.n for step in self.steps if rulebook.catalogue.acts[step.act].moves_vent}
        return bool(moving & self.steps_done and moving & set(self.steps_in_hand()))

    def unable(self, vent: str | None) -> "Cook":
        """The cook after "can't do that": the step in hand, or that at `vent`, is remembered as one that can't be done."""
        ahead = [step for step in self.steps if step.n not in self.steps_done and step.act not in IDLE]
        meant = [step for step in ahead if step.parameters.get("vent") == vent] if vent else ahead
        if not meant:
            return self
        return replace(self, situation=self.situation.unable(move_name(meant[0].act, meant[0].parameters)))


def in_hand(steps: Iterable[StepSaid]) -> tuple[StepSaid, ...]:
    """From the first step to the first with a wait, or to one that comes due at another reading."""
    found: list[StepSaid] = []
    for step in steps:
        if found and (found[-1].wait_min or step.when and step.when != found[-1].when):
            break
        found.append(step)
    return tuple(found)


def waiting_after(cook: Cook, did: Collection[int], steps: tuple[StepSaid, ...], check_in_min: float | None,
                  now: float) -> Waiting | None:
    """The timer of a cook that was told something or did steps `did` of its last advice, once `steps` are the new ones.

    The wait of the step done last counts, unless the new steps begin with what is left of it. A wait that runs on is
    the same wait: its beginning stays.
    """
    idle_first = bool(steps) and steps[0].act in IDLE and steps[0].wait_min
    waited = next((step.wait_min for step in reversed(cook.steps) if step.n in did and step.wait_min), None)
    minutes = check_in_min if idle_first or not waited else waited
    if not minutes:
        return None
    new, old = Waiting(now, now + minutes, bool(idle_first or waited)), cook.waiting
    runs_on = (old and old.hands_off and new.hands_off and not did and now < old.until_min
               and abs(old.until_min - new.until_min) <= SAME_WAIT_MIN)
    return old if runs_on else new


def shown_by(step: StepSaid, situation: Situation) -> Mapping[str, Value]:
    """The dome that a vent reported moved shows: one that was to wait for a reading was moved when the dial read so."""
    dome = situation.facts.get("dome_f")
    if dome is None or step.act != "set_vent":
        return {}
    bounds = (step.when or {}).get("dome_f", {})
    reached = max(bounds.get("at_least", -math.inf), min(bounds.get("at_most", math.inf), float(dome.value)))
    return {} if reached == float(dome.value) else {"dome_f": reached}


def is_near(told: float, opening: float) -> bool:
    """Whether two openings, other than shut, can't be told apart by eye; "a crack" is any crack that was advised."""
    if not told or not opening:
        return told == opening
    return abs(told - opening) <= NEAR_OPENING or (told <= CRACK and opening <= WIDEST_CRACK)


def _agrees(told: Value, left: Value) -> bool:
    both = isinstance(told, float) and isinstance(left, float)
    return is_near(told, left) if both else told == left


def effects(step: StepSaid, act: Act) -> Mapping[str, Value]:
    """The facts a step leaves behind, its own parameters filled in."""
    left: dict[str, Value] = {}
    for name, value in act.leaves.items():
        value = step.parameters.get(value, value) if isinstance(value, str) else value
        left[name.format(**step.parameters)] = float(value) if type(value) is int else value
    if act.moves_vent:
        left["vents_moved_ago_min"] = 0.0
    return left
