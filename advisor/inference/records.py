"""What inference leaves behind: firings, findings, what was held back. Frozen, and readable when printed."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property

from advisor.facts import Fact, Value
from advisor.rulebook.schema import Rule

NOTHING_NEW = "nothing new"  # what a firing gave when everything it concludes stood already


@dataclass(frozen=True, slots=True)
class Firing:
    """One rule that fired: its number in this run, the facts it used, what it gave in words."""

    n: int
    rule: Rule
    used: tuple[Fact, ...]
    gave: str

    def __str__(self) -> str:
        return f"{self.n}. {self.rule.id}: {', '.join(map(str, self.used))} => {self.gave}"


@dataclass(frozen=True, slots=True)
class Blocked:
    """One rule whose conditions held but which was kept from firing, and by which fact."""

    rule: Rule
    by: Fact

    def __str__(self) -> str:
        return f"{self.rule.id} held back by {self.by}"


@dataclass(frozen=True, slots=True)
class Evidence:
    """One weight for (or against, negative) a finding, already reduced by how far its facts are trusted."""

    finding: str
    weight: float
    rule: str


@dataclass(frozen=True, slots=True)
class Held:
    """A finding with its certainty (0..1) and the evidence it follows from."""

    id: str
    certainty: float
    evidence: tuple[Evidence, ...]

    def __str__(self) -> str:
        return f"{self.id} {self.certainty:.2f} ({', '.join(f'{e.rule} {e.weight:+.2f}' for e in self.evidence)})"


@dataclass(frozen=True)
class Inference:
    """The outcome of one run: all facts known, findings (surest first), firings in order, rules held back.

    weighed holds every finding that any evidence spoke to, also those that fell to 0 or below.
    """

    facts: Mapping[str, Fact]
    findings: tuple[Held, ...]
    firings: tuple[Firing, ...]
    blocked: tuple[Blocked, ...]
    weighed: tuple[Held, ...]

    @cached_property
    def values(self) -> Mapping[str, Value]:
        """Facts by value and findings by certainty, under one name each."""
        return {held.id: held.certainty for held in self.findings} | {name: f.value for name, f in self.facts.items()}

    def value(self, name: str) -> Value | None:
        """A fact's value, a finding's certainty, or None when unknown."""
        return self.values.get(name)

    def fired(self, *folders: str) -> tuple[Firing, ...]:
        return tuple(firing for firing in self.firings if firing.rule.folder in folders)

    def __str__(self) -> str:
        return "\n".join([*map(str, self.firings), *map(str, self.findings), *map(str, self.blocked)])
