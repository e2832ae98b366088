"""What is known of one cooker before anybody speaks: a small YAML file, or the defaults."""

from itertools import pairwise
from pathlib import Path
from typing import Annotated, Any, Literal

from pydantic import BaseModel, ConfigDict, Field, ValidationError, model_validator

from advisor.errors import ProfileError, RuleFileError
from advisor.yamlfile import read_yaml, refusal


class _Frozen(BaseModel):
    model_config = ConfigDict(extra="forbid", frozen=True)


class OwnPoint(_Frozen):
    """The top opening (0..1) that holds `dome_f`, and how far off it may be on a day to come, as the standard deviation
    of its logarithm. Opening at an inch of bottom vent, ceramic hot through."""

    dome_f: float
    opening: float = Field(gt=0, le=1)
    log_sd: float = Field(gt=0, le=3)


class OwnChart(_Frozen):
    """A vent chart of one's own (advisor/ownchart/): points ascending in both, and the cooks and stretches it rests on.

    seen: finished cooks that were looked through; one that rests on no cook says nothing that the trade's does not.
    """

    points: Annotated[tuple[OwnPoint, ...], Field(min_length=2)]
    cooks: int = Field(ge=0)
    stretches: int = Field(default=0, ge=0)
    seen: int = Field(default=0, ge=0)

    @model_validator(mode="after")
    def _ascending(self) -> "OwnChart":
        if any(low.dome_f >= high.dome_f or low.opening > high.opening for low, high in pairwise(self.points)):
            raise ValueError("the points must ascend in temperature and never fall in opening")
        return self


class CookerProfile(_Frozen):
    """bottom_travel_in, top_travel_in: the full travel of each vent (inches); altitude_ft: height above the sea.

    kind: the size, by which the thermal model takes it; learned: what past cooks taught (advisor/outlook/lore.py);
    chart: its own vent chart, which goes before that of the trade.
    """

    name: str | None = None
    bottom_travel_in: float = Field(default=4.0, gt=0.5, le=20)
    top_travel_in: float = Field(default=3.0, gt=0.5, le=20)  # judgement: common practice, no published source
    altitude_ft: float | None = Field(default=None, ge=-1400, le=20000)
    kind: Literal["small", "medium", "large"] = "large"
    learned: dict[str, Any] | None = None
    chart: OwnChart | None = None


def read_profile(path: Path) -> CookerProfile:
    """A profile file. Raises ProfileError with file, line and the keys that are allowed."""
    try:
        return CookerProfile.model_validate(read_yaml(path) or {})
    except ValidationError as error:
        raise ProfileError(str(refusal(path, error, CookerProfile.model_fields))) from None
    except RuleFileError as error:
        raise ProfileError(error.seen, "", error.remedy) from None
