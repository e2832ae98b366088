"""What one turn gives back, as pydantic models: the authority on what outside programs may rely on."""

from typing import Any, Literal

from pydantic import BaseModel, ConfigDict, Field

from advisor.facts import Origin, Value


class Part(BaseModel):
    model_config = ConfigDict(extra="forbid", frozen=True)


class FindingSaid(Part):
    """Something that may be the matter; certainty 0..1; because: ids of the rules that speak for it."""

    id: str
    says: str
    certainty: float = Field(ge=0, le=1)
    because: tuple[str, ...]


class StepSaid(BaseModel):
    """One step; the act's own parameters stand beside these keys. wait_min: leave things alone that long after it."""

    model_config = ConfigDict(extra="allow", frozen=True)
    n: int
    act: str
    says: str
    wait_min: float | None = None
    when: dict[str, dict[str, float]] | None = None

    @property
    def parameters(self) -> dict[str, Any]:
        return dict(self.__pydantic_extra__ or {})


class CautionSaid(Part):
    id: str
    level: Literal["danger", "warning", "note"]
    says: str
    source: str
    defer_to: str = ""
    bears_on: tuple[str, ...] = ()


class QuestionAsked(Part):
    """The one question that matters most now."""

    fact: str
    says: str
    choices: tuple[str, ...]
    because: str


class ForecastSaid(Part):
    goal_f: float
    likely_min: float
    low_min: float
    high_min: float
    confidence: float


class UsedFact(Part):
    fact: str
    value: Value
    origin: Origin


class FiringSaid(Part):
    """One firing: its number, the rule, the facts it used and where each came from, what it gave."""

    n: int
    rule: str
    used: tuple[UsedFact, ...]
    gave: str
    because: str = ""


class AnswerSaid(Part):
    """An answer to a question about the trade; because: the rule it comes from."""

    says: str
    because: str
    source: str


class OtherHeard(Part):
    cooker: str
    heard: dict[str, Value]


class FoodSaid(Part):
    verdict: Literal["safe", "conditional", "discard", "unknown"]
    says: str
    reach_f: float | None = None
    direction: Literal["heat", "cool"] | None = None
    hold_min: float | None = None
    within_min: float | None = None
    source: str
    because: tuple[str, ...] = ()


class Reply(Part):
    """One turn's answer. See the contract for programs in DEVELOPERS.md; `text` is the whole as a person reads it."""

    heard: dict[str, Value] = Field(default_factory=dict)
    also_heard: tuple[OtherHeard, ...] = ()
    cooker: str | None = None
    situation: dict[str, Value] = Field(default_factory=dict)
    findings: tuple[FindingSaid, ...] = ()
    steps: tuple[StepSaid, ...] = ()
    cautions: tuple[CautionSaid, ...] = ()
    asks: QuestionAsked | None = None
    answers: tuple[AnswerSaid, ...] = ()
    forecast: ForecastSaid | None = None
    check_in_min: float | None = None
    why: tuple[FiringSaid, ...] = ()
    text: str = ""
    food: FoodSaid | None = None
    what_if: "Reply | None" = None
    understood: bool = True

    def as_json(self) -> str:
        """One line of JSON."""
        return self.model_dump_json()
