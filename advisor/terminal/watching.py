"""What watching comes to: thinned readings into the conversation, and the words and first steps when something is seen."""

import json
from collections.abc import Iterable, Mapping
from datetime import UTC, datetime
from typing import Any

from advisor.clock import EpochClock
from advisor.importing.recipe import Measured
from advisor.importing.telling import moment_words
from advisor.logbook.records import MS_A_MINUTE
from advisor.reply import Reply, StepSaid
from advisor.session import Session
from advisor.telling import danger_lines, step_lines
from advisor.terminal import door, ready
from advisor.terminal.books import kept
from advisor.terminal.layout import columns, laid_out, openings
from advisor.watching.speech import Speech, read_watch_words
from advisor.watching.watcher import Event, Watcher

LIVE_MS = 30 * MS_A_MINUTE     # a last reading no older than this is of a fire that burns now
FRESH_MS = 15 * MS_A_MINUTE    # what was seen longer ago is told in one line, without steps
NOW_MS = 2 * MS_A_MINUTE       # the kept talk goes by the real clock: a reading older than this is not told it as one of now
FEED_MIN = 1.0            # the conversation hears of a reading so often
FIRST_STEPS = 3
LEVELS = ("warning",)


class Minder:
    """One watched cooker. A fire that burns now is talked of in the kept conversation, which goes on in the chat; one of
    long ago in a conversation of its own, by the file's times. scale: F or C, in which the person named the target.
    """

    def __init__(self, data: str | None, cooker: str | None, target_f: float | None, as_json: bool,
                 scale: str | None = None) -> None:
        self._data, self._cooker, self._json, self._scale = data, cooker, as_json, scale
        self._words = read_watch_words()
        self._speak_in(scale)
        self.watcher = Watcher(target_f)
        self._told_target = target_f
        self._phrases = self.conversation.rulebook.catalogue.phrases
        self._session: Session | None = None
        self._epoch_ms = 0
        self._next_feed = 0.0
        self._latest: dict[str, float] = {}
        self._last_ms, self._came_ms = 0, 0
        self._once: dict[str, Any] = {}
        self._passed_over = False

    def _speak_in(self, scale: str | None) -> None:
        """A conversation in the scale of the settings, or else in this one."""
        self.conversation = ready.conversation(None, forecasts=False, scale=scale)
        self._speech = Speech(self._words, self.conversation.wording())

    def begin(self, taken: Iterable[str], scale: str | None, rows: list[tuple[Measured, float | None]], now_ms: int) -> None:
        """The first rows are there: say what they are taken for, and decide which conversation they belong to.

        scale: the thermometer's; a target named in the other one goes before it.
        """
        if scale and not self._scale:
            self._speak_in(scale)
        last = rows[-1][0].at_ms if rows else now_ms
        self._epoch_ms = rows[0][0].at_ms if rows else now_ms
        if live := abs(now_ms - last) <= LIVE_MS:
            self._session = kept(self.conversation, self._data, EpochClock())
        if self._cooker:
            self._once["cooker"] = self._cooker
        if not self._json:
            then = ("  it burns now: what is read goes into your talk in the logbook" if live else
                    f"  taken by its own times, from {moment_words(self._epoch_ms, None)}; nothing is kept of it")
            self._show([*taken, then, *(self._session.news() if self._session else ())])
        if self._told_target is None:
            self._told_target = self._talked_target()
            self.watcher.target_f = self._told_target

    def take(self, measured: Measured, target_f: float | None, now_ms: int) -> None:
        """One row."""
        minute = (measured.at_ms - self._epoch_ms) / MS_A_MINUTE
        self._last_ms, self._came_ms = measured.at_ms, now_ms
        self._latest |= measured.values
        if target_f is not None and self._told_target is None:
            self.watcher.target_f = target_f
        events = self.watcher.feed(minute, measured.values)
        for event in events:
            self._told(event, now_ms)
        if not events and minute >= self._next_feed and (self._session is None or now_ms - measured.at_ms <= NOW_MS):
            self._feed({}, minute, now_ms)

    def nothing_came(self, now_ms: int) -> None:
        """Time goes on: for a fire that burns now, silence is something to be seen; and what was passed over in the
        file's past and still stands is said now.
        """
        if self._passed_over:
            self._passed_over = False
            for event in self.watcher.standing():
                self._told(event, now_ms)
        if self._session is not None and self._last_ms:
            for event in self.watcher.silence((self._last_ms + now_ms - self._came_ms - self._epoch_ms) / MS_A_MINUTE):
                self._told(event, now_ms)

    def end(self) -> None:
        """The input has ended."""
        if not self._last_ms and not self._json:
            door.say("Nothing that can be read has come.")

    # -- the conversation -----------------------------------------------------------------------------------------------

    def _feed(self, more: Mapping[str, Any], minute: float, now_ms: int) -> Reply | None:
        """The last readings into the conversation; None for what lies too far back to be talked of."""
        self._next_feed = minute + FEED_MIN
        if self._session is not None and now_ms - self._last_ms > FRESH_MS:
            return None
        thinned = {probe: state.value_f for probe, state in self.watcher.probes.items()}
        facts = {f"{probe}_f": value for probe, value in (self._latest | thinned).items()} | self._once | dict(more)
        if (pace := self.watcher.pace()) is not None and "trend" not in facts:
            facts["rate_f_per_min"] = pace
        if self.watcher.target_f is not None and "told" not in self._once:
            facts["target_f"] = self.watcher.target_f
        facts.pop("told", None)
        reply = self._session.reading(facts) if self._session else self.conversation.reading(facts, minute)
        self._once = {"told": True} if self.watcher.target_f is not None else {}
        return reply

    def _talked_target(self) -> float | None:
        told = self.conversation.current.situation.facts.get("target_f")
        return float(told.value) if told else None

    # -- saying ---------------------------------------------------------------------------------------------------------

    def _told(self, event: Event, now_ms: int) -> None:
        at_ms = round(self._epoch_ms + event.at * MS_A_MINUTE)
        facts = self._facts(event)
        reply = self._feed(facts, event.at, now_ms) if facts or event.what == "alarm" else None
        self._passed_over |= event.what == "alarm" and reply is None
        if self._json:
            door.send(json.dumps(self._as_data(event, at_ms, reply), ensure_ascii=False))
        elif event.what in ("alarm", "over"):
            self._show(self._lines(event, at_ms, reply))

    def _facts(self, event: Event) -> dict[str, Any]:
        """What the sighting itself tells, besides the readings."""
        if event.what == "lid_closed":
            return {"lid_opened_ago_min": max(0.0, event.at - self.watcher.dips[-1].opened)}
        if event.family == "swing" and event.what == "alarm":
            return {"trend": "swinging"}
        if event.family == "dome":
            return {"gauge_suspect": event.what == "alarm"}
        if event.what == "alarm" and event.family in ("hot", "cold") and self.watcher.target_f is None:
            return {"target_f": round(self._aim() or 0.0)}
        return {}

    def _aim(self) -> float | None:
        return self.watcher.aim_f

    def _sentence(self, event: Event) -> str:
        aimed = self.watcher.target_f is not None
        if event.what == "over":
            return self._speech.over(event, self._aim(), aimed)
        said = self._speech.alarm(event, self._aim(), aimed)
        if not aimed and event.family in ("hot", "cold"):
            said += " " + self._speech.word("no_target", aim=self._speech.degrees(self._aim() or 0.0))
        if event.family in ("dome", "grate"):
            said += " " + self._speech.word("probe_first")
        return said

    def _lines(self, event: Event, at_ms: int, reply: Reply | None) -> list[str]:
        clock = self._clock(at_ms)
        if reply is None or event.what == "over":
            earlier = reply is None and event.what == "alarm"
            return [f"{self._speech.word('earlier', clock=clock) if earlier else clock} {self._sentence(event)}"]
        lines = [f"{clock} {self._sentence(event)}"]
        if event.family not in ("hot", "cold", "swing"):
            return lines
        return [*lines, *self._advice(reply)]

    def _advice(self, reply: Reply) -> list[str]:
        """The cautions, then the steps up to the first wait; the whole reply where it has none."""
        first = first_steps(reply.steps)
        if not first:
            return [reply.text]
        acts = {step.act for step in first}
        care = [caution for caution in reply.cautions if caution.level in LEVELS
                and (not caution.bears_on or acts & set(caution.bears_on))]
        return [*danger_lines(reply.cautions, self._phrases),
                *(f"{self._phrases['take_care']} {caution.says}" for caution in care), *step_lines(first)]

    def _as_data(self, event: Event, at_ms: int, reply: Reply | None) -> dict[str, Any]:
        """One line of --json."""
        data: dict[str, Any] = {"at_ms": at_ms, "what": event.what}
        if event.family:
            data["of"] = event.family
        if event.seen:
            data |= {"seen": event.seen.kind, "figures": {name: round(float(value), 2) for name, value in event.seen.figures.items()}}
        if event.what in ("alarm", "over"):
            data["says"] = self._sentence(event)
        if event.what == "alarm":
            data["reply"] = reply.model_dump(mode="json") if reply else None
        return data

    def _show(self, lines: list[str]) -> None:
        door.say(laid_out("\n".join(lines), columns(), openings(self._phrases)) + "\n")

    def _clock(self, at_ms: int) -> str:
        return f"{datetime.fromtimestamp(at_ms / 1000, UTC).astimezone():%H:%M}"


def first_steps(steps: Iterable[StepSaid]) -> list[StepSaid]:
    """Up to the first that has a wait after it, FIRST_STEPS at most."""
    first: list[StepSaid] = []
    for step in steps:
        first.append(step)
        if step.wait_min or len(first) == FIRST_STEPS:
            break
    return first
