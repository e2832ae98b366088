"""Where a talk is kept, and a turn that is to be kept. Plain values."""

import hashlib
import json
from collections.abc import Mapping
from dataclasses import asdict, dataclass, field
from typing import Any

from advisor.clock import TalkClock
from advisor.logbook import records
from advisor.logbook.records import MS_A_MINUTE
from advisor.reply import Reply
from advisor.stand import Stand

RESET, FINISH, NOTE = "reset", "finish", "note"  # kinds of turns that are more than words


@dataclass(frozen=True, slots=True)
class Place:
    """Where a talk is kept.

    talk_id None: not entered yet; version: turns entered; cooks: their numbers, by the stand's names; said: a sign of the
    advice given last, by the number of the cook (as text: JSON knows no other keys).
    """

    talk_id: int | None = None
    version: int = 0
    epoch_ms: int = 0
    cooks: Mapping[str, int] = field(default_factory=dict)
    said: Mapping[str, str] = field(default_factory=dict)

    @property
    def version_kept(self) -> tuple[int, int] | None:
        """As `Reader.open_version` gives it while nobody else goes on with the talk."""
        return None if self.talk_id is None else (self.talk_id, self.version)

    def ms(self, minute: float) -> int:
        """A minute of the talk as a moment."""
        return self.epoch_ms + round(minute * MS_A_MINUTE)


@dataclass(frozen=True, slots=True)
class KeptTurn:
    """A turn as it was taken: kind and content as they came in; before, after: the stand; state, clock: to go on from.

    minute: when it was on the clock of the talk it belongs to; a reset is the last turn of the talk it ends.
    """

    kind: str
    content: Mapping[str, Any]
    reply: Reply | None
    before: Stand
    after: Stand
    state: Mapping[str, Any]
    clock: TalkClock
    minute: float

    @property
    def ms(self) -> int:
        """The real moment at which it was taken."""
        return round(self.clock.kept_at * MS_A_MINUTE)


def place_of(talk: records.Talk) -> Place:
    """Where a talk is kept that another process entered."""
    return Place(talk.id, talk.version, talk.epoch_ms, talk.state.get("cooks", {}), talk.state.get("said", {}))


def clock_in(talk: records.Talk) -> TalkClock:
    """The clock of a talk as it was kept; of a state that holds none, as it stood when the talk began."""
    try:
        return TalkClock(**{name: float(value) for name, value in talk.state["clock"].items()})
    except (KeyError, TypeError, ValueError, AttributeError):
        return TalkClock(kept_at=talk.opened_ms / MS_A_MINUTE, now_min=max(0.0, (talk.opened_ms - talk.epoch_ms) / MS_A_MINUTE))


def state_of(turn: KeptTurn, place: Place) -> dict[str, Any]:
    """What a later process needs to go on after `turn`."""
    return {"conversation": dict(turn.state), "clock": asdict(turn.clock), "cooks": dict(place.cooks),
            "said": dict(place.said)}


def sign_of(advice: Mapping[str, Any]) -> str:
    """The same for the same steps and cautions, and for no others."""
    same = json.dumps([advice["steps"], advice["cautions"]], sort_keys=True)
    return hashlib.sha256(same.encode()).hexdigest()[:32]
