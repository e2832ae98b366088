"""The cases beside a rule: situations in which it fires and in which it stays silent. Reading and running them."""

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

import yaml
from pydantic import BaseModel, ConfigDict, ValidationError

from advisor.conditions import Condition
from advisor.derivation import derive
from advisor.errors import DrafthandError, RuleFileError
from advisor.facts import Fact, Value
from advisor.inference.reasoner import Reasoner
from advisor.inference.records import Inference
from advisor.lacking import holds
from advisor.profile import CookerProfile
from advisor.rulebook.loader import CASES, Rulebook
from advisor.rulebook.schema import Rule
from advisor.situation import Situation
from advisor.yamlfile import Loader, read_yaml, refusal

Kind = Literal["fires", "silent"]
KINDS: tuple[Kind, ...] = ("fires", "silent")
NO_PROFILE = CookerProfile()


class Cases(BaseModel):
    """A cases file: each entry holds the facts told in one situation, at minute 0 of a conversation."""

    model_config = ConfigDict(extra="forbid", frozen=True)
    fires: tuple[dict[str, Value | int], ...] = ()
    silent: tuple[dict[str, Value | int], ...] = ()

    def of(self, kind: Kind) -> tuple[dict[str, Value | int], ...]:
        return self.fires if kind == "fires" else self.silent


@dataclass(frozen=True, slots=True)
class CaseResult:
    """One case run: the rule, where its case stands, what was told, whether it came out as written, and why not."""

    rule: str
    file: str
    line: int
    kind: Kind
    told: Mapping[str, Value]
    passed: bool
    because: str = ""

    def __str__(self) -> str:
        facts = ", ".join(f"{name}: {str(value).lower()}" for name, value in self.told.items())
        mark = "ok" if self.passed else f"FAILED, {self.because}"
        return f"{self.file}:{self.line}: {self.rule} {self.kind} on {{{facts}}}: {mark}"


class FullRun:
    """From told facts to an inference, as a conversation does it on its first message. Raises InferenceError."""

    def __init__(self, rulebook: Rulebook) -> None:
        self._rulebook, self._reasoner = rulebook, Reasoner(rulebook)

    def infer(self, told: Mapping[str, Value]) -> Inference:
        """Raises DrafthandError for a fact that can't be told or a value that can't stand."""
        return self._reasoner.infer(self.derived(told, self._rulebook))

    @staticmethod
    def derived(told: Mapping[str, Value], rulebook: Rulebook, profile: CookerProfile = NO_PROFILE) -> dict[str, Fact]:
        """All that is known by telling and arithmetic."""
        vocabulary = rulebook.vocabulary
        checked = {name: vocabulary.check(name, value) for name, value in told.items()}
        situation = Situation().tell(checked, "said", vocabulary, 0.0)
        return derive(situation, vocabulary, rulebook.catalogue.vent_chart, profile, 0.0)


def cases_path(rule: Rule) -> Path:
    return Path(rule.path).with_suffix("").with_suffix(CASES)


def read_cases(path: Path) -> Cases:
    """One cases file. Raises RuleFileError with file and line."""
    try:
        return Cases.model_validate(read_yaml(path) or {})
    except ValidationError as error:
        raise refusal(path, error, Cases.model_fields) from None


def told_wrong(told: Mapping[str, Value], rulebook: Rulebook) -> DrafthandError | None:
    """Why these facts can't be told, or None."""
    vocabulary = rulebook.vocabulary
    for name, value in told.items():
        if name in vocabulary.derived:
            return DrafthandError(f"{name} is worked out, not told", "a case holds what a person says",
                                  "write the readings it follows from")
        try:
            vocabulary.check(name, value)
        except DrafthandError as error:
            return error
    return None


def run_cases(rulebook: Rulebook) -> list[CaseResult]:
    """Every case of every rule, in order. A rule without a cases file has none (`rules check` reports that).

    Raises RuleFileError for a cases file that can't be read, InferenceError when the rules can't be run.
    """
    full_run = FullRun(rulebook)
    return [result for rule in rulebook.rules if (path := cases_path(rule)).exists()
            for result in _run_file(rule, path, full_run, rulebook)]


def _run_file(rule: Rule, path: Path, full_run: FullRun, rulebook: Rulebook) -> list[CaseResult]:
    cases, lines = read_cases(path), lines_of_cases(path)
    results = []
    for kind in KINDS:
        for told, line in zip(cases.of(kind), lines[kind]):
            if wrong := told_wrong(told, rulebook):
                raise RuleFileError(f"{path}:{line}", wrong.seen, wrong.matters, wrong.remedy)
            because = _contrary(rule, kind, full_run.infer(told))
            results.append(CaseResult(rule.id, str(path), line, kind, told, not because, because))
    return results


def _contrary(rule: Rule, kind: Kind, inference: Inference) -> str:
    """How the run went against the case, in words; nothing when it came out as written."""
    firing = next((firing for firing in inference.firings if firing.rule.id == rule.id), None)
    if kind == "silent":
        return f"it fired on {', '.join(map(str, firing.used))}" if firing else ""
    return "" if firing else why_silent(rule, inference)


def why_silent(rule: Rule, inference: Inference) -> str:
    """The first thing that kept `rule` from firing."""
    if held_back := next((blocked for blocked in inference.blocked if blocked.rule.id == rule.id), None):
        return f"held back by {held_back.by}"
    for condition in rule.when:
        if not (answer := holds(condition, inference)):
            return f"it needs that {condition}, {_stands(condition, inference) if answer is False else 'unknown here'}"
    return "it did not fire"


def _stands(condition: Condition, inference: Inference) -> str:
    value = inference.value(condition.fact)
    return "nothing speaks for that" if value is None else f"but it is {str(value).lower()}"


def lines_of_cases(path: Path) -> dict[Kind, list[int]]:
    """The line on which each case begins."""
    root = yaml.compose(path.read_text(encoding="utf-8"), Loader=Loader)
    entries = {key.value: value.value for key, value in root.value} if isinstance(root, yaml.MappingNode) else {}
    return {kind: [entry.start_mark.line + 1 for entry in entries.get(kind, [])] for kind in KINDS}
