"""What cannot be taken from a file, in the one family of errors."""

from dataclasses import dataclass, field

from advisor.errors import DrafthandError


class FileRefused(DrafthandError):
    """A file as a whole that gives no readings."""


class Undecided(FileRefused):
    """Something the file leaves open: at a terminal it is asked, elsewhere an option has to say it.

    option: the option that settles it; choices: what may be answered, (word for the option, what it means);
    () when the answer is free.
    """

    def __init__(self, seen: str, matters: str, option: str, choices: tuple[tuple[str, str], ...] = ()) -> None:
        self.option, self.choices = option, choices
        words = " or ".join(f"{option} {word} ({meaning})" if meaning else f"{option} {word}" for word, meaning in choices)
        super().__init__(seen, matters, f"say {words or option}")


class CellWrong(ValueError):
    """A cell that holds no reading or no time; the text says why. It costs that cell, or its row, never the file."""


@dataclass
class Wrong:
    """Rows and cells that could not be taken: the first of them in words, all of them counted."""

    shown_at_most: int = 20
    shown: list[tuple[int, str]] = field(default_factory=list)
    count: int = 0

    def add(self, line: int, why: str) -> None:
        self.count += 1
        if len(self.shown) < self.shown_at_most:
            self.shown.append((line, why))
