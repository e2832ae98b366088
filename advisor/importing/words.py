"""The words of rules/logger-columns.yaml, and how a column's name is taken apart to be compared with them."""

import re
import unicodedata
from functools import cached_property
from pathlib import Path
from typing import Literal

from pydantic import ValidationError

from advisor.rulebook.loader import rules_folder
from advisor.rulebook.schema import Frozen
from advisor.yamlfile import read_yaml, refusal

Role = Literal["date", "time", "dome", "grate", "meat", "ambient", "target", "probe", "value", "unit", "kind", "left_out"]
Unit = Literal["F", "C"]
FILE = "logger-columns.yaml"
HUMP = re.compile(r"(?<=[a-z])(?=[A-Z])")
DEGREE = re.compile(r"[°º]\s*([FfCc])\b|[(\[_ ./-]([FfCc])[)\]]?$|^([FfCc])$|(?<=[a-z])([FC])$")


class ColumnWords(Frozen):
    """What columns are called."""

    columns: dict[Role, tuple[str, ...]]
    missing: frozenset[str]
    months: dict[int, tuple[str, ...]]
    units: dict[Unit, tuple[str, ...]]

    @cached_property
    def phrases(self) -> list[tuple[tuple[str, ...], Role]]:
        """(words of a phrase, role), phrases of more words and longer ones first."""
        found = [(tuple(plain(phrase)), role) for role, phrases in self.columns.items() for phrase in phrases]
        return sorted(found, key=lambda pair: (-len(pair[0]), -len("".join(pair[0]))))

    def roles(self, name: str) -> list[tuple[Role, int]]:
        """Roles whose words stand in a column's name, the best first, with the number of letters that matched."""
        words, found = plain(name), {}
        for phrase, role in self.phrases:
            if role not in found and _stands_in(phrase, words):
                found[role] = len("".join(phrase)) + 4 * (len(phrase) - 1)
        return sorted(found.items(), key=lambda pair: -pair[1])

    def unit(self, name: str) -> Unit | None:
        """The unit a column's name or a cell's text carries."""
        if mark := DEGREE.search(name.strip()):
            return next(letter for letter in mark.groups() if letter).upper()
        words = plain(name)
        return next((unit for unit, marks in self.units.items()
                     if any(len(mark) > 1 and _stands_in(tuple(plain(mark)), words) for mark in marks)), None)

    def month(self, name: str) -> int | None:
        """1 to 12 for the name of a month."""
        start = name.casefold().rstrip(".")
        return next((number for number, names in self.months.items() if start.startswith(names)), None)


def read_column_words(folder: Path | None = None) -> ColumnWords:
    """Raises RuleFileError with file and line."""
    path = (folder or rules_folder()) / FILE
    try:
        return ColumnWords.model_validate(read_yaml(path) or {})
    except ValidationError as error:
        raise refusal(path, error, ColumnWords.model_fields) from None


def plain(name: str) -> list[str]:
    """The words of a name without case, accents and signs: "KernTemp_°C" -> ["kern", "temp", "c"]."""
    apart = unicodedata.normalize("NFKD", HUMP.sub(" ", name).casefold())
    bare = "".join(letter for letter in apart if not unicodedata.combining(letter))
    return re.findall(r"[^\W\d_]+|\d+", bare)


def _stands_in(phrase: tuple[str, ...], words: list[str]) -> bool:
    size = len(phrase)
    return any(tuple(words[at:at + size]) == phrase for at in range(len(words) - size + 1))
