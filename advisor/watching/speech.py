"""What was seen in words, from rules/watching.yaml, in the person's units."""

from pathlib import Path

from pydantic import ValidationError

from advisor.rulebook.loader import rules_folder
from advisor.rulebook.schema import Frozen
from advisor.watching.leaving import BAND_F
from advisor.watching.scene import Kind, Sighting
from advisor.watching.watcher import Event
from advisor.wording import Wording, minutes
from advisor.yamlfile import read_yaml, refusal

FILE = "watching.yaml"
TEMPERATURES, DIFFERENCES = ("dome", "value", "was", "low", "high"), ("off", "size")
TIMES = ("in", "for", "every")


class WatchWords(Frozen):
    """alarms: by kind, with _out for a dome that has left its band; words: smaller pieces."""

    alarms: dict[str, str]
    words: dict[str, str]


def read_watch_words(folder: Path | None = None) -> WatchWords:
    """Raises RuleFileError with file and line."""
    path = (folder or rules_folder()) / FILE
    try:
        return WatchWords.model_validate(read_yaml(path) or {})
    except ValidationError as error:
        raise refusal(path, error, WatchWords.model_fields) from None


class Speech:
    """wording: the person's units; aim_f: what is wanted, and whether it was told or is what the dome has held."""

    def __init__(self, said: WatchWords, wording: Wording) -> None:
        self._said, self._wording = said, wording

    def alarm(self, event: Event, aim_f: float | None, aimed: bool) -> str:
        """One sentence for an alarm."""
        seen = event.seen
        assert seen is not None
        return _filled(self._said.alarms[_text_of(seen)], self._pieces(seen, event.family) | {"aim": self.aim(aim_f, aimed)})

    def over(self, event: Event, aim_f: float | None, aimed: bool) -> str:
        """One sentence for a spell that is over."""
        key = event.family if event.family in ("hot", "cold", "swing") else "probe"
        return _filled(self._said.words[f"over_{key}"], {"probe": event.family, "aim": self.aim(aim_f, aimed)})

    def word(self, name: str, **pieces: str) -> str:
        return _filled(self._said.words[name], pieces)

    def aim(self, aim_f: float | None, aimed: bool) -> str:
        if aim_f is None:
            return ""
        return _filled(self._said.words["target" if aimed else "held"], {"aim": self._wording.temperature(aim_f)})

    def degrees(self, fahrenheit: float) -> str:
        return self._wording.temperature(fahrenheit)

    def _pieces(self, seen: Sighting, probe: str) -> dict[str, str]:
        figures = {name.removesuffix("_f").removesuffix("_min"): float(value) for name, value in seen.figures.items()}
        pieces = {name: self._wording.temperature(value) for name, value in figures.items() if name in TEMPERATURES}
        pieces |= {name: self._wording.difference(value) for name, value in figures.items() if name in DIFFERENCES}
        pieces |= {name: minutes(value) for name, value in figures.items() if name in TIMES}
        pieces["pace"] = self._wording.difference(10.0 * figures.get("rate", 0.0))
        return pieces | {"band": self._wording.difference(BAND_F), "probe": probe}


def _text_of(seen: Sighting) -> str:
    kind: Kind = seen.kind
    return f"{kind}_out" if kind in ("overshoot", "dying") and "in_min" not in seen.figures else kind


def _filled(text: str, pieces: dict[str, str]) -> str:
    for name, piece in pieces.items():
        text = text.replace(f"{{{name}}}", piece)
    return text
