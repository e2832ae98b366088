"""Every error a person may meet, as one family: what was seen, why it matters, what to do.

Programming mistakes are not in here; they stay ordinary Python exceptions.
"""


class DrafthandError(Exception):
    """Root of the family.

    seen:    what was found, naming the thing ("the target of 5000 °F")
    matters: why that is a problem
    remedy:  what the person can do now
    """

    def __init__(self, seen: str, matters: str = "", remedy: str = "") -> None:
        self.seen, self.matters, self.remedy = seen, matters, remedy
        super().__init__(self.sentence())

    def sentence(self) -> str:
        """One line, fit for standard error."""
        parts = [self.seen.rstrip("."), self.matters.rstrip(".")]
        text = ", ".join(part for part in parts if part)
        return " ".join(f"{text}; {self.remedy}".split()) if self.remedy else " ".join(text.split())


class ValueRefused(DrafthandError):
    """A value that cannot stand under its fact: wrong type, not finite, out of reach."""


class UnknownName(DrafthandError):
    """A fact, finding, act or setting nobody has defined; carries the nearest known names."""


class LineRefused(DrafthandError):
    """A line of `pipe` that cannot be taken."""


class ClockRefused(DrafthandError):
    """A time that runs backwards or is no number."""


class RuleFileError(DrafthandError):
    """A file of the rule base that cannot be used; starts with file and line."""

    def __init__(self, where: str, seen: str, matters: str = "", remedy: str = "") -> None:
        self.where = where
        super().__init__(f"{where}: {seen}", matters, remedy)


class InferenceError(DrafthandError):
    """The engine could not finish: a loop, or a conclusion that contradicts another."""


class ProfileError(DrafthandError):
    """A cooker profile or settings file that cannot be used."""


class TranscriptError(DrafthandError):
    """A demo conversation that is not written in the notation, or no longer comes out as it says."""


class CommandRefused(DrafthandError):
    """The words of a command are off (exit status 2)."""


class LogbookError(DrafthandError):
    """A logbook that cannot be used: of a newer schema, damaged, or something missing in it."""


class LogbookUnwritable(LogbookError):
    """A logbook that takes nothing just now: disk full, read-only, out of reach, held by another for too long."""
