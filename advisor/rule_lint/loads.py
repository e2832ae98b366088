"""loads: every file of the rules folder can be read and names only what exists.

Avoid
    a misspelt key, fact, finding, act, parameter or caution; a value out of bounds; an id unlike the file's name;
    a `then` that does not belong to the folder; broken YAML; a file or folder where nothing looks for it
        recover/too-hot.yml             (the ending is .yaml)
        recovery/too-hot--shut-it.yaml  (there is no such folder)
Prefer
    the names of vocabulary.yaml, findings.yaml, acts.yaml and cautions.yaml, and the template in rules/README.md
Why
    A file that does not load is a rule that never helps anybody. Each broken file is one issue, for its first fault;
    the rest of the folder is checked all the same.
"""

import os
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

from advisor.errors import RuleFileError
from advisor.rule_lint.cases import Cases, cases_path, read_cases
from advisor.rule_lint.issue import Issue
from advisor.rule_lint.material import Material
from advisor.rulebook.catalogue import LISTS, Catalogue, read_list
from advisor.rulebook.loader import parse_rule, read_rule, rule_paths
from advisor.rulebook.references import broken_references
from advisor.rulebook.schema import FOLDERS, Rule
from advisor.suggestions import did_you_mean
from advisor.vocabulary import Vocabulary, read_vocabulary

ID = "loads"


def gather(folder: Path) -> tuple[Material | None, list[Issue]]:
    """What could be loaded, and an issue for each file that could not. None when there is too little to check."""
    issues: list[Issue] = []
    paths = _attempt(issues, rule_paths, folder) or []
    if issues:
        return None, issues
    vocabulary = _attempt(issues, read_vocabulary, folder / "vocabulary.yaml")
    parts = [_attempt(issues, read_list, folder, file) for file in LISTS]
    if issues:
        for path in paths:
            _attempt(issues, parse_rule, path)
        return None, issues
    catalogue = Catalogue(**{name: value for part in parts for name, value in part.items()})
    issues += map(issue_of, broken_references(folder, vocabulary, catalogue))
    return _material(folder, paths, vocabulary, catalogue, issues), issues


def _material(folder: Path, paths: list[Path], vocabulary: Vocabulary, catalogue: Catalogue,
              issues: list[Issue]) -> Material:
    rules = [rule for path in paths if (rule := _attempt(issues, read_rule, path, vocabulary, catalogue))]
    cases, broken = _cases(rules, issues)
    return Material(folder, vocabulary, catalogue, tuple(rules), cases, broken)


def _cases(rules: list[Rule], issues: list[Issue]) -> tuple[dict[str, Cases], frozenset[str]]:
    there = [rule for rule in rules if cases_path(rule).exists()]
    read = {rule.id: _attempt(issues, read_cases, cases_path(rule)) for rule in there}
    return ({name: cases for name, cases in read.items() if cases},
            frozenset(name for name, cases in read.items() if cases is None))


def _attempt(issues: list[Issue], read: Callable[..., Any], *what: Any) -> Any:
    try:
        return read(*what)
    except RuleFileError as error:
        issues.append(issue_of(error))
        return None


def issue_of(error: RuleFileError, check: str = ID) -> Issue:
    """An error of the loader as an issue."""
    file, _, line = error.where.rpartition(":")
    if not line.isdigit():
        file, line = error.where, "1"
    return Issue(file, int(line), check, error.seen.removeprefix(f"{error.where}: "), error.matters, error.remedy)


def check(material: Material) -> Iterator[Issue]:
    """Files and folders lying where nothing reads them; what is read and refused is found while loading."""
    for entry in sorted(os.scandir(material.folder), key=lambda entry: entry.name):
        if entry.is_dir() and entry.name not in FOLDERS and not entry.name.startswith((".", "_")):
            yield Issue(entry.path, 1, ID, f"{entry.name}/ is no folder for rules", "nothing in it is read",
                        did_you_mean(entry.name, FOLDERS))
        elif entry.is_dir() and entry.name in FOLDERS:
            yield from _strays(Path(entry.path))


def _strays(folder: Path) -> Iterator[Issue]:
    for path in sorted(folder.iterdir()):
        if path.is_dir() or path.suffix != ".yaml":
            yield Issue(str(path), 1, ID, f"{path.name} is no rule file", "it is not read",
                        "end its name in .yaml and put it directly into the folder")
