"""What may stand in a rule file, as pydantic models. The folder a rule lies in says what it may conclude."""

from collections.abc import Iterable
from datetime import date
from functools import cached_property
from typing import Annotated, Any, Literal

from pydantic import (
    BaseModel,
    BeforeValidator,
    ConfigDict,
    Field,
    ValidationError,
    WithJsonSchema,
    model_validator,
)

from advisor.conditions import NUMBER_TESTS, Condition, parse_conditions
from advisor.yamlfile import first_complaint, keys_of

FOLDERS = ("understand", "diagnose", "recover", "safety", "teach")
Folder = Literal["understand", "diagnose", "recover", "safety", "teach"]
CONCERNS = ("people", "fire", "fuel", "smoke", "food", "gauge", "gear")
SIZES = ("opening", "choke", "lift")  # what the thermal model is asked for: see advisor/outlook/sizing.py
STANDINGS = ("emergency", "safety", "rescue", "correct", "check", "routine")
FINDING_GRADES = {"possible": 0.2, "likely": 0.5, "certain": 0.85}


class Frozen(BaseModel):
    model_config = ConfigDict(extra="forbid", frozen=True)


class Amount(Frozen):
    """A number taken from a fact when the plan is made; `otherwise` when that fact is unknown."""

    from_: str = Field(alias="from")
    plus: float = 0.0
    otherwise: float | None = None


Number = Amount | float


def _due(written: Any) -> Any:
    if not isinstance(written, dict) or len(written) != 1:
        raise ValueError("write one fact with one bound, such as dome_f: {at_most: 275}")
    return written


class Step(Frozen):
    """One thing the cook does. Keys besides these are the act's own parameters."""

    model_config = ConfigDict(extra="allow", frozen=True)
    act: str
    says: str
    wait_min: Number | None = None
    when: Annotated[dict[str, dict[Literal["at_most", "at_least"], Number]], BeforeValidator(_due)] | None = None

    @property
    def parameters(self) -> dict[str, Any]:
        return dict(self.__pydantic_extra__ or {})


class Then(Frozen):
    """What a rule concludes; each folder allows its own keys (see KEYS_OF)."""

    know: dict[str, bool | float | str] | None = None
    points_to: dict[str, float] | None = None
    warn: tuple[str, ...] | None = None
    concern: Literal[CONCERNS] | None = None  # type: ignore[valid-type]
    standing: Literal[STANDINGS] | None = None  # type: ignore[valid-type]
    steps: tuple[Step, ...] | None = None
    sized_by: Literal[SIZES] | None = None  # type: ignore[valid-type]
    works_if: str | None = None
    if_not: str | None = None
    tell: str | None = None


KEYS_OF = {
    "understand": {"know"},
    "diagnose": {"points_to"},
    "recover": {"concern", "standing", "steps", "sized_by", "works_if", "if_not"},
    "safety": {"warn"},
    "teach": {"tell"},
}


_VALUE = {"type": ["number", "string", "boolean"]}
_TESTS = {"type": "object", "minProperties": 1, "additionalProperties": False,
          "properties": {**{test: {"type": "number"} for test in NUMBER_TESTS}, "known": {"const": True},
                         "not": {"anyOf": [_VALUE, {"type": "array", "items": _VALUE}]}}}
WRITTEN_CONDITIONS = {  # as they stand in a file; a Condition is what they are read into
    "type": "object", "minProperties": 1, "description": "facts or findings and what they must be",
    "additionalProperties": {"anyOf": [_VALUE, {"type": "array", "items": _VALUE}, _TESTS]}}
Conditions = Annotated[tuple[Condition, ...], BeforeValidator(parse_conditions), WithJsonSchema(WRITTEN_CONDITIONS)]


class RuleFile(Frozen):
    """One rule, in the order in which its keys are written."""

    id: str = Field(pattern=r"^[a-z0-9]+(-[a-z0-9]+)*(--[a-z0-9]+(-[a-z0-9]+)*)?$")
    title: str
    status: Literal["trusted", "draft"]
    when: Conditions
    unless: Conditions = ()
    then: Then
    because: str
    ask_if_unknown: tuple[str, ...] = ()
    known_exceptions: str | None = None
    source: str
    changed: date

    @model_validator(mode="after")
    def _weights_are_certainties(self) -> "RuleFile":
        for finding, weight in (self.then.points_to or {}).items():
            if not -1 <= weight <= 1 or weight == 0:
                raise ValueError(f"the weight of {finding} must lie between -1 and 1 and not be 0")
        return self


def allowed_keys(error: ValidationError) -> Iterable[str]:
    """The keys that may stand where the first complaint of `error` points."""
    keys = keys_of(first_complaint(error))
    if keys[:1] != ["then"] or len(keys) < 2:
        return RuleFile.model_fields
    if len(keys) == 2:
        return Then.model_fields
    return ("from", "plus", "otherwise") if len(keys) > 4 else Step.model_fields


class Rule(Frozen):
    """A rule with the folder it came from and the place of its file. Input of inference, plan and explanation."""

    folder: Folder
    path: str
    file: RuleFile

    def __repr__(self) -> str:
        return f"Rule({self.id})"

    @cached_property
    def id(self) -> str:
        return f"{self.folder}/{self.file.id}"

    @cached_property
    def when(self) -> tuple[Condition, ...]:
        return self.file.when

    @cached_property
    def unless(self) -> tuple[Condition, ...]:
        return self.file.unless

    @cached_property
    def then(self) -> Then:
        return self.file.then
