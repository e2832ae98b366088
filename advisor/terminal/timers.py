"""When a wait is over, the line that says so: once, and once more when nobody answers. It prints nothing."""

from collections.abc import Iterable
from dataclasses import dataclass, field

from advisor.cook import IDLE
from advisor.course import in_short
from advisor.rulebook.catalogue import Catalogue
from advisor.standing import Standing
from advisor.wording import minutes

Key = tuple[str, float]  # the cooker, and the minute its timer ended


@dataclass(frozen=True, slots=True)
class Reminder:
    """A timer that is over. again: whether it was said before and nobody answered."""

    standing: Standing
    again: bool

    @property
    def key(self) -> Key:
        return self.standing.cooker, self.standing.waiting.until_min if self.standing.waiting else 0.0


@dataclass(slots=True)
class Timers:
    """Which timers were named already. again_min: minutes until one is named a second and last time; 0: never."""

    again_min: float
    _named: dict[Key, tuple[float, int]] = field(default_factory=dict)

    def due(self, standings: Iterable[Standing], now: float) -> list[Reminder]:
        """What is to be said now; it counts as said only once `said` is called."""
        over = [Reminder(standing, False) for standing in standings if standing.due]
        return [Reminder(reminder.standing, reminder.key in self._named) for reminder in over
                if self._is_time(reminder.key, now)]

    def _is_time(self, key: Key, now: float) -> bool:
        at, times = self._named.get(key, (now, 0))
        return times == 0 or times == 1 and self.again_min > 0 and now - at >= self.again_min

    def said(self, reminder: Reminder, now: float) -> None:
        _, times = self._named.get(reminder.key, (now, 0))
        self._named[reminder.key] = now, times + 1


def reminder_line(reminder: Reminder, several: bool, catalogue: Catalogue) -> str:
    """The one line. several: whether the cooker must be named."""
    phrases, standing = catalogue.phrases, reminder.standing
    steps = [step for step in standing.in_hand or (standing.then,) if step and step.act not in IDLE]
    key = "timer_look" if not steps else "timer_hands" if standing.in_hand else "timer_step"
    waiting = standing.waiting
    waited = minutes(waiting.until_min - waiting.since_min) if waiting else ""
    line = phrases[key].format(waited=waited[:1].upper() + waited[1:], step=in_short(steps, catalogue))
    if several:
        line = phrases["timer_cooker"].format(cooker=cooker_name(standing.cooker, catalogue), line=line)
    return phrases["timer_again"].format(line=line) if reminder.again else line


def cooker_name(name: str, catalogue: Catalogue) -> str:
    """How a cooker is called in a line of its own."""
    return catalogue.phrases["named_cooker"].format(cooker=name) if name else catalogue.phrases["unnamed_cooker"]


def countdown(left_min: float) -> str:
    """"4:05", or "1:20:00" from an hour on; a second begun counts whole."""
    seconds = max(0, -int(-left_min * 60 // 1))
    hours, rest = divmod(seconds, 3600)
    return f"{hours}:{rest // 60:02}:{rest % 60:02}" if hours else f"{rest // 60}:{rest % 60:02}"
