"""What is known of one cooker before anybody speaks: a small YAML file, or the defaults."""

from pathlib import Path
from typing import Any, Literal

from pydantic import BaseModel, ConfigDict, Field, ValidationError

from advisor.errors import ProfileError, RuleFileError
from advisor.yamlfile import read_yaml, refusal


class CookerProfile(BaseModel):
    """bottom_travel_in, top_travel_in: the full travel of each vent (inches); altitude_ft: height above the sea.

    kind: the size, by which the thermal model takes it; learned: what past cooks taught (advisor/outlook/lore.py).
    """

    model_config = ConfigDict(extra="forbid", frozen=True)
    name: str | None = None
    bottom_travel_in: float = Field(default=4.0, gt=0.5, le=20)
    top_travel_in: float = Field(default=3.0, gt=0.5, le=20)  # judgement: common practice, no published source
    altitude_ft: float | None = Field(default=None, ge=-1400, le=20000)
    kind: Literal["small", "medium", "large"] = "large"
    learned: dict[str, Any] | None = None


def read_profile(path: Path) -> CookerProfile:
    """A profile file. Raises ProfileError with file, line and the keys that are allowed."""
    try:
        return CookerProfile.model_validate(read_yaml(path) or {})
    except ValidationError as error:
        raise ProfileError(str(refusal(path, error, CookerProfile.model_fields))) from None
    except RuleFileError as error:
        raise ProfileError(error.seen, "", error.remedy) from None
