"""What the logbook gives back: frozen, plain values. Moments (`_ms`) are UTC milliseconds since 1970."""

from dataclasses import dataclass
from typing import Any, Literal

MS_A_MINUTE = 60_000
Probe = Literal["dome", "grate", "meat", "ambient"]
Vent = Literal["bottom", "top"]
Origin = Literal["said", "measured", "imported"]


@dataclass(frozen=True, slots=True)
class Talk:
    """A conversation. version: turns kept; minute 0 of its clock lies at epoch_ms; state: where it stands."""

    id: int
    epoch_ms: int
    opened_ms: int
    closed_ms: int | None
    version: int
    state: dict[str, Any]


@dataclass(frozen=True, slots=True)
class Turn:
    """One turn of a talk, the n-th. content: what came in, by its kind; reply: what was answered."""

    talk_id: int
    n: int
    at_ms: int
    kind: str
    content: dict[str, Any]
    reply: dict[str, Any]


@dataclass(frozen=True, slots=True)
class Cooker:
    """A cooker by name ("" where nobody named it). profile: what is known of it, as a profile file holds it."""

    id: int
    name: str
    profile: dict[str, Any] | None


@dataclass(frozen=True, slots=True)
class Cook:
    """A cook on one cooker (its name). ended_ms None: going on; target_f: the last wanted; talk_id None: imported."""

    id: int
    talk_id: int | None
    cooker: str
    started_ms: int
    ended_ms: int | None
    target_f: float | None
    outcome: str | None


@dataclass(frozen=True, slots=True)
class Reading:
    at_ms: int
    probe: Probe
    value_f: float
    origin: Origin


@dataclass(frozen=True, slots=True)
class Move:
    """A vent put to `opening` (0..1). was: where it stood before; None when unknown, or when it was only told to stand so."""

    at_ms: int
    vent: Vent
    opening: float
    was: float | None


@dataclass(frozen=True, slots=True)
class Deed:
    """A step that was carried out: its act and the words it was given in."""

    at_ms: int
    act: str
    says: str


@dataclass(frozen=True, slots=True)
class Advice:
    """What was advised: the text, and its parts as a reply holds them."""

    at_ms: int
    text: str
    steps: list[dict[str, Any]]
    cautions: list[dict[str, Any]]
    forecast: dict[str, Any] | None


@dataclass(frozen=True, slots=True)
class Note:
    """The person's own words about a cook."""

    at_ms: int
    words: str
