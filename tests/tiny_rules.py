"""A small rules folder of the tests' own, without a fault, and short ways to put one into it."""

import shutil
from pathlib import Path
from typing import Any

import yaml

from advisor.rule_lint.runner import lint
from advisor.rulebook.loader import Rulebook, read_rulebook

TINY = Path(__file__).parent / "rule_lint" / "tiny"
STEPS = [{"act": "read_dome", "says": "Read the dome."}]
THEN: dict[str, dict[str, Any]] = {
    "understand": {"know": {"overshoot": "far"}}, "diagnose": {"points_to": {"too-much-air": 0.3}},
    "recover": {"concern": "gear", "standing": "check", "steps": STEPS}, "safety": {"warn": ["sparks-fly"]},
    "teach": {"tell": "So it is."}}


class Tiny:
    """A copy of the small folder that a test may spoil."""

    def __init__(self, folder: Path) -> None:
        self.folder = Path(shutil.copytree(TINY, folder))

    def write(self, name: str, text: str) -> Path:
        path = self.folder / name
        path.parent.mkdir(exist_ok=True)
        path.write_text(text, encoding="utf-8")
        return path

    def replace(self, name: str, old: str, new: str) -> None:
        text = (self.folder / name).read_text(encoding="utf-8")
        assert text.count(old) == 1, f"{old!r} stands {text.count(old)} times in {name}"
        self.write(name, text.replace(old, new))

    def rule(self, rule_id: str, fires: list | None = None, silent: list | None = None, **keys: Any) -> None:
        """A rule without a fault but for what `keys` say (when, unless, then, source, ...), with cases beside it."""
        folder, _, name = rule_id.partition("/")
        file = {"id": name, "title": "A rule", "status": "trusted", "when": {"windy": True}, "unless": None,
                "then": THEN[folder], "because": "It is so.", "source": "common practice, no published source",
                "changed": "2026-11-25"} | keys
        kept = {key: value for key, value in file.items() if value is not None}
        text = yaml.safe_dump(kept, sort_keys=False).replace("'2026-11-25'", "2026-11-25")
        self.write(f"{rule_id}.yaml", text)
        cases = {"fires": fires or [{"windy": True}], "silent": silent or [{"smoke": "white"}]}
        self.write(f"{rule_id}.cases.yaml", yaml.safe_dump(cases))

    def steps(self, *steps: dict[str, Any], **keys: Any) -> None:
        """The rule recover/probe with these steps."""
        then = {"concern": "gear", "standing": keys.pop("standing", "check"), "steps": list(steps)}
        self.rule("recover/probe", then=then, **keys)

    def found(self, check: str | None = None) -> list[str]:
        """Issues of one check (of all when None): "file:line: words", the folder left out."""
        start = len(str(self.folder)) + 1
        return [f"{issue.file[start:]}:{issue.line}: {issue.says}" for issue in lint(self.folder)
                if check in (None, issue.check)]

    def only(self, check: str) -> str:
        """The one issue of `check`."""
        found = self.found(check)
        assert len(found) == 1, found
        return found[0]

    @property
    def rulebook(self) -> Rulebook:
        return read_rulebook(self.folder)
