"""A rules folder to a Rulebook: every file validated, every name known, or an error with file, line and a way out."""

import os
import re
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path

from pydantic import ValidationError

from advisor.conditions import Condition
from advisor.errors import RuleFileError, UnknownName
from advisor.rulebook.catalogue import Catalogue, read_catalogue
from advisor.rulebook.names import check_names
from advisor.rulebook.references import broken_references
from advisor.rulebook.schema import FOLDERS, KEYS_OF, Rule, RuleFile, allowed_keys
from advisor.vocabulary import Vocabulary, read_vocabulary
from advisor.yamlfile import line_of, read_yaml, refusal

CASES = ".cases.yaml"  # the ending of the file of cases beside a rule


@dataclass(frozen=True, repr=False)
class Rulebook:
    """The whole knowledge: vocabulary, catalogue, and the rules in the order of their ids."""

    folder: Path
    vocabulary: Vocabulary
    catalogue: Catalogue
    rules: tuple[Rule, ...]

    @cached_property
    def by_id(self) -> dict[str, Rule]:
        return {rule.id: rule for rule in self.rules}

    def __repr__(self) -> str:
        return f"Rulebook({self.folder}, {len(self.rules)} rules)"

    @cached_property
    def _by_folder(self) -> dict[str, tuple[Rule, ...]]:
        return {folder: tuple(rule for rule in self.rules if rule.folder == folder) for folder in FOLDERS}

    def of(self, *folders: str) -> tuple[Rule, ...]:
        """The rules of these folders, in the order in which the folders are named."""
        return tuple(rule for folder in folders for rule in self._by_folder[folder])

    @cached_property
    def asking(self) -> dict[str, tuple[Rule, ...]]:
        """Fact or finding -> the rules, other than those that only answer questions, whose `when` names it."""
        return self._naming(lambda rule: rule.when)

    @cached_property
    def barred_by(self) -> dict[str, tuple[Rule, ...]]:
        """Fact or finding -> the rules, other than those that only answer questions, whose `unless` names it."""
        return self._naming(lambda rule: rule.unless)

    def _naming(self, conditions: Callable[[Rule], Iterable[Condition]]) -> dict[str, tuple[Rule, ...]]:
        named: dict[str, list[Rule]] = {}
        for rule in self.of("understand", "diagnose", "recover", "safety"):
            for condition in conditions(rule):
                named.setdefault(condition.fact, []).append(rule)
        return {fact: tuple(rules) for fact, rules in named.items()}

    @cached_property
    def makers(self) -> dict[str, tuple[Rule, ...]]:
        """Fact -> the rules of understand/ that conclude it."""
        facts = {fact for rule in self.of("understand") for fact in rule.then.know or {}}
        return {fact: tuple(rule for rule in self.of("understand") if fact in (rule.then.know or {})) for fact in facts}


def rules_folder() -> Path:
    """Where the rule base lies: DRAFTHAND_RULES, or the installed copy, or the checkout's rules/."""
    if named := os.environ.get("DRAFTHAND_RULES"):
        return Path(named)
    installed = Path(__file__).parent.parent / "_rules"
    return installed if installed.is_dir() else Path(__file__).parent.parent.parent / "rules"


def read_rulebook(folder: Path | None = None) -> Rulebook:
    """The rule base in `folder`. Raises RuleFileError for the first thing that is wrong."""
    folder = folder or rules_folder()
    paths = rule_paths(folder)
    vocabulary = read_vocabulary(folder / "vocabulary.yaml")
    catalogue = read_catalogue(folder)
    for error in broken_references(folder, vocabulary, catalogue):
        raise error
    rules = tuple(read_rule(path, vocabulary, catalogue) for path in paths)
    return Rulebook(folder, vocabulary, catalogue, rules)


def rule_paths(folder: Path) -> list[Path]:
    """Rule files in the order of folder and name; cases files are no rules. Raises RuleFileError."""
    names = {part: _names_in(folder / part) for part in FOLDERS if part in _names_in(folder)}
    return [folder / part / name for part, found in names.items() for name in found
            if name.endswith(".yaml") and not name.endswith(CASES)]


def _names_in(folder: Path) -> list[str]:
    """os.listdir and not Path.glob, which takes a folder that may not be read for an empty one."""
    try:
        return sorted(os.listdir(folder))
    except (FileNotFoundError, NotADirectoryError):
        raise RuleFileError(str(folder), "no such folder", "without its rules drafthand knows nothing",
                            "set DRAFTHAND_RULES to the rules folder or install again") from None
    except OSError as error:
        raise RuleFileError(str(folder), f"it cannot be read ({error.strerror})", "the rules are in there",
                            "check that the folder may be read") from None


def read_rule(path: Path, vocabulary: Vocabulary, catalogue: Catalogue) -> Rule:
    """One rule. Raises RuleFileError with file and line."""
    rule = parse_rule(path)
    try:
        check_names(rule, vocabulary, catalogue)
    except UnknownName as error:
        raise RuleFileError(f"{path}:{_line_naming(path, error.seen)}", error.seen, error.matters,
                            error.remedy) from None
    return rule


def parse_rule(path: Path) -> Rule:
    """One rule as far as its own file tells; names are not looked up. Raises RuleFileError with file and line."""
    written = read_yaml(path)
    if not isinstance(written, dict):
        raise RuleFileError(f"{path}:1", "no rule stands in this file", "a rule is keys with values, from id to changed",
                            "start from the template in rules/README.md")
    try:
        file = RuleFile.model_validate(written)
    except ValidationError as error:
        raise refusal(path, error, allowed_keys(error)) from None
    rule = Rule(folder=path.parent.name, path=str(path), file=file)
    _check_place(path, rule)
    return rule


def _check_place(path: Path, rule: Rule) -> None:
    if path.stem != rule.file.id:
        raise RuleFileError(f"{path}:{line_of(path, ['id'])}", f"the id is {rule.file.id!r}",
                            "file name and id must be the same", f"rename the file to {rule.file.id}.yaml")
    concluded = {key for key, value in rule.then if value is not None}
    allowed = KEYS_OF[rule.folder]
    if not concluded or concluded - allowed:
        wrong = ", ".join(sorted(concluded - allowed)) or "nothing"
        raise RuleFileError(f"{path}:{line_of(path, ['then'])}", f"`then` holds {wrong}",
                            f"a rule of {rule.folder}/ concludes {', '.join(sorted(allowed))}",
                            "write one of these or move the file to the fitting folder")
    if rule.folder == "recover" and not (rule.then.concern and rule.then.standing and rule.then.steps):
        raise RuleFileError(f"{path}:{line_of(path, ['then'])}", "`then` lacks concern, standing or steps",
                            "the plan cannot place it", "add the missing one")


def _line_naming(path: Path, sentence: str) -> int:
    """The first line from `when` on that holds the name the complaint is about: the one quoted, or its first word."""
    name = re.escape(sentence.split("'")[1] if "'" in sentence else sentence.split()[0])
    lines = path.read_text(encoding="utf-8").splitlines()
    start = line_of(path, ["when"])
    return next((number for number, line in enumerate(lines, 1)
                 if number >= start and re.search(rf"(?<![\w-]){name}(?![\w-])", line)), start)
