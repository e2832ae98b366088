"""One thing that is wrong in a rules folder. Knows nothing of the checks that find it."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, order=True)
class Issue:
    """file and line say where; check is the id of the check; seen, matters and do are the three parts of the message."""

    file: str
    line: int
    check: str
    seen: str
    matters: str = ""
    do: str = ""

    @property
    def says(self) -> str:
        """What was seen, why it matters, what to do - in one line."""
        found = ", ".join(part.rstrip(".") for part in (self.seen, self.matters) if part)
        return " ".join((f"{found}; {self.do}" if self.do else found).split())

    def __str__(self) -> str:
        return f"{self.file}:{self.line}: {self.says} [{self.check}]"
