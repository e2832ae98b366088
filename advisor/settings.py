"""What a person has set once and for all: a small YAML file, every key optional. Knows nothing of screens or cooks."""

from pathlib import Path
from typing import Any, Literal

from pydantic import BaseModel, ConfigDict, Field, ValidationError
from pydantic.fields import FieldInfo

from advisor.errors import DrafthandError, ProfileError, RuleFileError
from advisor.units import SpokenUnits
from advisor.yamlfile import read_yaml, refusal

Temperature = Literal["as spoken", "fahrenheit", "celsius"]
Length = Literal["as spoken", "inches", "centimetres"]


class Settings(BaseModel):
    """The description of a key is what `drafthand settings` says it does."""

    model_config = ConfigDict(extra="forbid", frozen=True)
    temperature: Temperature = Field("as spoken", description=(
        "the scale of all temperatures, and of figures said without one; as spoken: the scale you use yourself"))
    length: Length = Field("as spoken", description="how vents and gaps are measured; as spoken: the way you say it")
    bell: bool = Field(True, description="whether the terminal rings when a wait is over")
    remind_again_min: float = Field(5.0, ge=0, le=240, description=(
        "minutes until a wait that is over is named once more, if nobody answered; 0: never"))
    screen_reader: bool = Field(False, description=(
        "plain lines for a screen reader: nothing is drawn anew, no line below the prompt, no columns"))
    contrast: Literal["normal", "high"] = Field("normal", description=(
        "high: bold and reversed letters instead of colours, to be read in bright sun"))
    logbook: str | None = Field(None, min_length=1, description=(
        "where cooks are kept: a folder, or the address of a database; left out, a folder of its own in your data"))
    altitude_ft: float | None = Field(None, ge=-1400, le=20000, description=(
        "how high you cook, in feet above the sea; a cooker's profile goes before it"))
    figures: Literal["us", "uk"] = Field("us", description=(
        "whose figures for food safety count, once food is asked about; fires do not change with it"))
    place: Literal["home", "stand"] = Field("home", description=(
        "whether you cook at home or for the public at a stand, where stricter rules for food hold; fires do not change "
        "with it"))

    @property
    def units(self) -> SpokenUnits:
        """The units that are laid down here; None where they are as spoken."""
        temperature: dict[str, Literal["F", "C"]] = {"fahrenheit": "F", "celsius": "C"}
        length: dict[str, Literal["in", "cm"]] = {"inches": "in", "centimetres": "cm"}
        return SpokenUnits(temperature.get(self.temperature), length.get(self.length))


def read_settings(path: Path) -> Settings:
    """The settings in a file, or the usual ones where there is none. Raises ProfileError with file and line."""
    if not path.exists():
        return Settings()
    try:
        return Settings.model_validate(read_yaml(path) or {})
    except ValidationError as error:
        raise ProfileError(str(refusal(path, error, Settings.model_fields))) from None
    except RuleFileError as error:
        raise ProfileError(error.seen, "", error.remedy) from None


def explained(settings: Settings) -> list[tuple[str, str, str]]:
    """(key, value, what it does) of every key; what may be written stands behind it where that is a few words."""
    return [(key, written(getattr(settings, key)), f"{field.description}{_allowed(field)}")
            for key, field in Settings.model_fields.items()]


def written(value: Any) -> str:
    """A value as it stands in the file."""
    if isinstance(value, bool) or value is None:
        return {True: "yes", False: "no", None: "not set"}[value]
    return f"{value:g}" if isinstance(value, float) else str(value)


def _allowed(field: FieldInfo) -> str:
    words = getattr(field.annotation, "__args__", ())
    return f" ({' | '.join(words)})" if words and all(isinstance(word, str) for word in words) else ""


def commented_file() -> str:
    """A settings file in which every key is explained and none is set."""
    lines = ["# Settings of drafthand. Take away the # before a key to set it.", ""]
    for key, value, says in explained(Settings()):
        lines += [f"# {says}", f"# {key}: {'' if value == 'not set' else value}".rstrip(), ""]
    return "\n".join(lines)


def write_commented(path: Path) -> None:
    """Put `commented_file` where the settings are looked for. Raises DrafthandError where a file stands already."""
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        with path.open("x", encoding="utf-8") as file:
            file.write(commented_file())
    except FileExistsError:
        raise DrafthandError(f"{path} is there already", "it would be lost", "change it with an editor") from None
    except OSError as error:
        raise DrafthandError(f"{path} cannot be written ({error.strerror})", "",
                             "set DRAFTHAND_SETTINGS to a file that can be") from None
