"""What the checks look at: the rules that could be loaded, their cases, and a full run on told facts.

Loading goes on after a broken file: each file that can't be used is one issue, and the rest is still looked at.
"""

from collections.abc import Container, Iterable, Mapping
from dataclasses import dataclass, field
from functools import cached_property
from pathlib import Path

from advisor.errors import InferenceError
from advisor.facts import Value
from advisor.inference.records import Inference
from advisor.profile import CookerProfile, OwnChart, OwnPoint
from advisor.rule_lint.cases import Cases, FullRun
from advisor.rule_lint.issue import Issue
from advisor.rulebook.catalogue import Catalogue
from advisor.rulebook.loader import Rulebook
from advisor.rulebook.schema import Rule
from advisor.vocabulary import Vocabulary
from advisor.yamlfile import line_of

Key = str | int


@dataclass(frozen=True)
class Material:
    """rules: those that loaded; cases: those that loaded, by rule id.

    broken_cases: ids of rules whose cases can't be read; known: what has been found to be known when a rule fires.
    """

    folder: Path
    vocabulary: Vocabulary
    catalogue: Catalogue
    rules: tuple[Rule, ...]
    cases: Mapping[str, Cases]
    broken_cases: frozenset[str] = frozenset()
    known: dict[str, Container[str]] = field(default_factory=dict)

    @cached_property
    def rulebook(self) -> Rulebook:
        return Rulebook(self.folder, self.vocabulary, self.catalogue, self.rules)

    @cached_property
    def full_run(self) -> FullRun | None:
        """From told facts to an inference; None when the engine refuses the rules (check `engine` says why)."""
        try:
            return FullRun(self.rulebook)
        except InferenceError:
            return None

    @cached_property
    def by_arithmetic(self) -> frozenset[str]:
        """Facts that arithmetic works out from told ones. Asked of the arithmetic itself, so no list can go stale."""
        told: dict[str, Value] = {name: (max(low, 0.0) + min(high, 200.0)) / 2
                                  for name, fact in self.vocabulary.told.items() if fact.is_number
                                  for low, high in [fact.bounds]}
        points = tuple(OwnPoint(dome_f=dome, opening=0.1, log_sd=0.2) for dome in (225, 450))
        known = FullRun.derived(told, self.rulebook, CookerProfile(chart=OwnChart(points=points, cooks=1)))
        taken = {f"{other}_taken" for name in self.vocabulary.standing_in
                 for figures in self.vocabulary[name].taken_as.values() for other in figures}
        return frozenset(known) - frozenset(told) | taken

    def infer(self, told: Mapping[str, Value]) -> Inference | None:
        """A full run on `told`; None when there can be none."""
        return self.full_run.infer(told) if self.full_run else None

    def of(self, *folders: str) -> tuple[Rule, ...]:
        return self.rulebook.of(*folders)

    def issue(self, check: str, rule: Rule, keys: Iterable[Key], seen: str, matters: str = "", do: str = "") -> Issue:
        """An issue at the value under `keys` in the file of `rule`."""
        return Issue(rule.path, line_of(Path(rule.path), keys), check, seen, matters, do)

    def listed(self, check: str, file: str, keys: Iterable[Key], seen: str, matters: str = "", do: str = "") -> Issue:
        """An issue in one of the lists of the folder, such as acts.yaml."""
        path = self.folder / file
        return Issue(str(path), line_of(path, keys), check, seen, matters, do)
