"""The lists that rules refer to by name: findings, acts, cautions, the vent chart of the trade, set phrases."""

from pathlib import Path
from typing import Any, Literal

from pydantic import BaseModel, Field, ValidationError

from advisor.errors import UnknownName
from advisor.rulebook.schema import Conditions, Frozen
from advisor.suggestions import did_you_mean
from advisor.yamlfile import read_yaml, refusal


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
    against: acts that cannot stand in one plan with it; never_when: conditions under any of which it is never advised.
    """

    title: str
    says: str = ""
    params: dict[str, Parameter] = Field(default_factory=dict)
    opens_lid: bool = False
    moves_vent: bool = False
    needs: tuple[str, ...] = ()
    leaves: dict[str, bool | float | str] = Field(default_factory=dict)
    against: tuple[str, ...] = ()
    never_when: Conditions = ()


class Caution(Frozen):
    """A danger and how to stay clear of it. bears_on: acts it must stand before, () when it stands first of all.

    otherwise: how it is said while none of those acts is advised and the danger lasts all the same.
    """

    level: Literal["danger", "warning", "note"]
    says: str
    otherwise: str = ""
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
    openers_in_danger: tuple[str, ...] = ()
    where_words: tuple[str, ...] = ()
    trade_words: frozenset[str] = frozenset()

    def __repr__(self) -> str:
        return f"Catalogue({len(self.findings)} findings, {len(self.acts)} acts, {len(self.cautions)} cautions)"

    def known(self, kind: Literal["findings", "acts", "cautions"], name: str) -> Any:
        """One entry; raises UnknownName with the nearest spelling."""
        entries = getattr(self, kind)
        if name not in entries:
            raise UnknownName(f"there is no {kind[:-1]} {name!r}", "", did_you_mean(name, entries))
        return entries[name]


def read_catalogue(folder: Path) -> Catalogue:
    """The lists of a rules folder. Raises RuleFileError with file and line."""
    return Catalogue(**{name: value for file in LISTS for name, value in read_list(folder, file).items()})


def read_list(folder: Path, file: str) -> dict[str, Any]:
    """The part of the catalogue that one file of LISTS holds. Raises RuleFileError with file and line."""
    path, model = folder / file, LISTS[file]
    try:
        read = model.model_validate(read_yaml(path) or {})
    except ValidationError as error:
        allowed = {*Finding.model_fields, *Act.model_fields, *Caution.model_fields, *Parameter.model_fields}
        raise refusal(path, error, allowed | set(model.model_fields)) from None
    return {"vent_chart": read} if model is VentChart else {name: getattr(read, name) for name in model.model_fields}


class _Findings(Frozen):
    findings: dict[str, Finding]


class _Acts(Frozen):
    acts: dict[str, Act]


class _Cautions(Frozen):
    cautions: dict[str, Caution]


class _Phrases(Frozen):
    phrases: dict[str, str]
    openers: tuple[str, ...]
    openers_in_danger: tuple[str, ...] = ()
    where_words: tuple[str, ...] = ()
    trade_words: frozenset[str] = frozenset()


LISTS: dict[str, type[BaseModel]] = {"findings.yaml": _Findings, "acts.yaml": _Acts, "cautions.yaml": _Cautions,
                                     "vent-chart.yaml": VentChart, "phrases.yaml": _Phrases}
