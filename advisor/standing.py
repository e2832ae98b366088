"""Where a cook stands: the dome against its target, the step in hand, what comes next. As data, and as three lines."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from advisor.cook import IDLE, Cook, Waiting, in_hand
from advisor.facts import Fact, Value
from advisor.language.heard import Heard
from advisor.language.normalise import bare_words
from advisor.reply import CautionSaid, StepSaid
from advisor.telling import danger_lines
from advisor.wording import Wording, minutes

NEAR_F = 5.0      # one step of a dome thermometer's dial: nearer than that is on the target
FRESH_MIN = 1.0   # a reading taken longer ago is said with its age


@dataclass(frozen=True, slots=True)
class Standing:
    """One cook at one minute. What is not known is None.

    over_f, dome_f, target_f: °F; way: rising, falling, steady, swinging; rate_f_per_min: signed; read_ago_min: age of the
    reading; in_hand: the steps due; then: the step after them; waiting: the timer; left_min: until it ends, negative once
    it is over; hands_off: whether nothing is to be done until then.
    """

    cooker: str
    dome_f: float | None
    target_f: float | None
    over_f: float | None
    way: str | None
    rate_f_per_min: float | None
    read_ago_min: float | None
    in_hand: tuple[StepSaid, ...]
    then: StepSaid | None
    waiting: Waiting | None
    left_min: float | None
    hands_off: bool
    endangered: bool

    @property
    def due(self) -> bool:
        """Whether the timer has run out."""
        return self.left_min is not None and self.left_min <= 0


def standing_of(cook: Cook, facts: Mapping[str, Fact], now: float) -> Standing:
    """Where `cook` stands at the minute `now`. facts: what is known of it then, worked out too."""
    left = cook.waiting.until_min - now if cook.waiting else None
    hands_off = bool(cook.waiting and cook.waiting.hands_off and left and left > 0)
    ahead = [step for step in cook.steps if step.n not in cook.steps_done]
    due = in_hand(ahead)
    if due and due[0].act in IDLE and due[0].wait_min and left is not None and not hands_off:
        ahead, due = ahead[1:], ()  # the wait is over
    elif due and (due[0].when or due[0].act not in IDLE and hands_off):
        due = ()  # its turn comes with a reading, or when the wait of the step before is over
    then = next((step for step in ahead if step not in due), None)
    readings = cook.situation.readings
    return Standing(
        cooker=cook.name, dome_f=_number(facts, "dome_f"), target_f=_number(facts, "target_f"),
        over_f=_number(facts, "over_f"), way=_word(facts, "trend"), rate_f_per_min=_number(facts, "rate_f_per_min"),
        read_ago_min=now - readings[-1][0] if readings else None, in_hand=due, then=then, waiting=cook.waiting,
        left_min=left, hands_off=hands_off, endangered=cook.endangered)


def asks_where(words: str, heard: Heard, known: Iterable[str]) -> bool:
    """Whether a message does nothing but ask where things stand, in one of the phrases `known`."""
    if heard.facts or heard.others or heard.about or heard.unclear or not set(heard.intents) <= {"what_now", "ask"}:
        return False
    said = f" {' '.join(bare_words(words.replace(chr(39), '')))} "
    return any(f" {phrase} " in said for phrase in known)


def three_lines(stands: Standing, cautions: Iterable[CautionSaid], phrases: dict[str, str], wording: Wording) -> str:
    """Exactly three: the dome; what is in hand; what comes next. A danger stands in a line of its own, before that of the
    step it bears on: the step itself is no danger, and "Next:" is looked for where a line begins."""
    said = (_dome(stands, phrases, wording), _in_hand(stands, phrases, wording), _next(stands, phrases, wording))
    held: tuple[list[CautionSaid], ...] = ([], [], [])
    here = {step.act for step in stands.in_hand}
    for caution in cautions:
        bears = set(caution.bears_on)
        held[0 if not bears else 1 if bears & here else 2].append(caution)
    return "\n".join(line for dangers, says in zip(held, said, strict=True) for line in (*danger_lines(dangers, phrases), says))


def _dome(stands: Standing, phrases: dict[str, str], wording: Wording) -> str:
    if stands.over_f is None and stands.dome_f is None:
        return phrases["stands_blind"]
    off = "" if stands.over_f is None else "on" if abs(stands.over_f) < NEAR_F else "over" if stands.over_f > 0 else "under"
    key = "stands_" + (off or "no_target") + ("_only" if off and stands.target_f is None else "")
    old = stands.read_ago_min is not None and stands.read_ago_min > FRESH_MIN
    words: dict[str, Value | None] = {"dome_f": stands.dome_f, "target_f": stands.target_f, "over_f": stands.over_f,
                                      "way": _way(stands, phrases, wording)}
    read = wording.fill(phrases["read_ago" if old else "read_now"], {"ago": minutes(stands.read_ago_min or 0.0)})
    return wording.fill(phrases[key], words | {"read": read})


def _way(stands: Standing, phrases: dict[str, str], wording: Wording) -> str:
    if stands.way is None:
        return phrases["way_unknown"]
    rate = stands.rate_f_per_min
    fast = rate is not None and abs(rate) >= 1 and stands.way in ("rising", "falling")
    return wording.fill(phrases["way_fast"], {"way": stands.way, "rate_f_per_min": rate}) if fast else stands.way


def _in_hand(stands: Standing, phrases: dict[str, str], wording: Wording) -> str:
    left, steps = _left(stands), " ".join(step.says for step in stands.in_hand)
    if not steps:
        return wording.fill(phrases["in_hand_wait" if left else "in_hand_nothing"], {"left": left})
    key = "in_hand_left" if left else "in_hand_due" if stands.due else "in_hand"
    return wording.fill(phrases[key], {"steps": steps, "left": left})


def _next(stands: Standing, phrases: dict[str, str], wording: Wording) -> str:
    if stands.then:
        step = stands.then.says.removeprefix("Then ")
        return wording.fill(phrases["next_step"], {"step": step[:1].upper() + step[1:]})
    left = _left(stands)
    return wording.fill(phrases["next_look" if left else "next_look_now"], {"left": left})


def _left(stands: Standing) -> str:
    """The time until the timer ends; nothing where none runs."""
    return minutes(max(1.0, stands.left_min)) if stands.left_min and stands.left_min > 0 else ""


def _number(facts: Mapping[str, Fact], name: str) -> float | None:
    fact = facts.get(name)
    return float(fact.value) if fact and not isinstance(fact.value, bool | str) else None


def _word(facts: Mapping[str, Fact], name: str) -> str | None:
    fact = facts.get(name)
    return fact.value if fact and isinstance(fact.value, str) else None
