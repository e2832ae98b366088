"""The lists that rules refer to by name: findings, acts, cautions, the vent chart of the trade, set phrases."""

from pathlib import Path
from typing import Any, Literal, TypeVar

from pydantic import BaseModel, Field, ValidationError

from advisor.errors import UnknownName
from advisor.rulebook.schema import Frozen
from advisor.suggestions import did_you_mean
from advisor.yamlfile import read_yaml, refusal

FileModel = TypeVar("FileModel", bound=BaseModel)


class Finding(Frozen):
    """Something that may be the matter. `says` is read by the cook; `family` is the symptom it belongs to."""

    says: str
    family: str
    kind: Literal["state", "cause"] = "cause"


class Parameter(Frozen):
    """A parameter of an act: a choice of words, or a number within bounds in the unit its name ends in."""

    values: tuple[str, ...] = ()
    low: float = 0.0
    high: float = 1e6
    required: bool = False


class Act(Frozen):
    """Something a cook's hands can do. `says` words the step where the plan itself puts it in.

    opens_lid, moves_vent: what it does to the air; needs: cautions that must stand before it;
    leaves: facts that hold once it is reported done ("{vent}_vent: opening" takes a parameter's value);
    against: acts that cannot stand in one plan with it.
    """

    title: str
    says: str = ""
    params: dict[str, Parameter] = Field(default_factory=dict)
    opens_lid: bool = False
    moves_vent: bool = False
    needs: tuple[str, ...] = ()
    leaves: dict[str, bool | float | str] = Field(default_factory=dict)
    against: tuple[str, ...] = ()


class Caution(Frozen):
    """A danger and how to stay clear of it. bears_on: acts it must stand before, () when it stands first of all."""

    level: Literal["danger", "warning", "note"]
    says: str
    bears_on: tuple[str, ...] = ()
    defer_to: str = ""
    source: str


class VentPoint(Frozen):
    dome_f: float
    opening: float = Field(ge=0, le=1)


class VentChart(Frozen):
    """Top-vent opening against the dome it holds, bottom vent an inch open. Ascending in both."""

    source: str
    points: tuple[VentPoint, ...] = Field(min_length=2)


class Catalogue(Frozen):
    """Everything rules may name, besides facts."""

    findings: dict[str, Finding]
    acts: dict[str, Act]
    cautions: dict[str, Caution]
    vent_chart: VentChart
    phrases: dict[str, str]
    openers: tuple[str, ...]

    def known(self, kind: Literal["findings", "acts", "cautions"], name: str) -> Any:
        """One entry; raises UnknownName with the nearest spelling."""
        entries = getattr(self, kind)
        if name not in entries:
            raise UnknownName(f"there is no {kind[:-1]} {name!r}", "", did_you_mean(name, entries))
        return entries[name]


def read_catalogue(folder: Path) -> Catalogue:
    """The lists of a rules folder. Raises RuleFileError with file and line."""
    phrases = _read(folder / "phrases.yaml", _Phrases)
    return Catalogue(
        phrases=phrases.phrases,
        openers=phrases.openers,
        findings=_read(folder / "findings.yaml", _Findings).findings,
        acts=_read(folder / "acts.yaml", _Acts).acts,
        cautions=_read(folder / "cautions.yaml", _Cautions).cautions,
        vent_chart=_read(folder / "vent-chart.yaml", VentChart),
    )


class _Findings(Frozen):
    findings: dict[str, Finding]


class _Acts(Frozen):
    acts: dict[str, Act]


class _Cautions(Frozen):
    cautions: dict[str, Caution]


class _Phrases(Frozen):
    phrases: dict[str, str]
    openers: tuple[str, ...]


def _read(path: Path, model: type[FileModel]) -> FileModel:
    try:
        return model.model_validate(read_yaml(path) or {})
    except ValidationError as error:
        allowed = {*Finding.model_fields, *Act.model_fields, *Caution.model_fields, *Parameter.model_fields}
        raise refusal(path, error, allowed) from None
