"""Scores understanding on files of utterances: recall of expected facts, precision, must_not broken.

    python tests/benchmarks/score_utterances.py [--misses] [FILE ...]     (all of tests/data/utterances_*.yaml)

The conventions stand at the head of tests/data/utterances_examples.yaml.
"""

import argparse
import sys
import time
from collections.abc import Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import yaml

ROOT = Path(__file__).parents[2]
DATA = ROOT / "tests" / "data"
if str(ROOT) not in sys.path:
    sys.path.insert(0, str(ROOT))

from advisor.language.heard import Context, Heard
from advisor.language.understanding import hear
from advisor.units import UnitStyle
from advisor.vocabulary import Vocabulary, read_vocabulary

TOLERANCE = {"food_kg": 0.02, "charcoal_kg": 0.02}
ORDINARY_TOLERANCE = 0.011
TEMPERATURE_TOLERANCE = 1.0


@dataclass
class Score:
    """Counts over one file. right/expected: keys of `heard`; filled: scored keys that were filled."""

    expected: int = 0
    right: int = 0
    filled: int = 0
    filled_right: int = 0
    broken: int = 0
    misses: list[str] = field(default_factory=list)

    @property
    def recall(self) -> float:
        return self.right / self.expected if self.expected else 1.0

    @property
    def precision(self) -> float:
        return self.filled_right / self.filled if self.filled else 1.0


def score_file(path: Path, vocabulary: Vocabulary) -> Score:
    score = Score()
    for entry in yaml.safe_load(path.read_text(encoding="utf-8")):
        heard = hear(entry["say"], vocabulary, _context(entry.get("context") or {}))
        score_entry(entry, heard, score)
    return score


def _context(given: dict[str, Any]) -> Context:
    given = dict(given)
    if isinstance(given.get("units"), dict):
        given["units"] = UnitStyle(**given["units"])
    elif isinstance(given.get("units"), str):
        given["units"] = UnitStyle(given["units"])
    if "facts" in given:
        given["facts"] = {
            name: float(value) if isinstance(value, int) and not isinstance(value, bool) else value
            for name, value in given["facts"].items()
        }
    for name in ("choices", "cookers"):
        given[name] = tuple(given.get(name, ()))
    return Context(**given)


def score_entry(entry: dict[str, Any], heard: Heard, score: Score) -> None:
    got = dict(heard.facts) | ({"cooker": heard.cooker} if heard.cooker else {})
    expected, also, must_not = (
        entry.get("heard") or {},
        entry.get("also_ok") or {},
        entry.get("must_not") or [],
    )
    for key, value in expected.items():
        score.expected += 1
        good = fits(key, got.get(key), value, also.get(key, []))
        score.right += good
        if not good:
            score.misses.append(
                f"{entry['id']} {entry['say'][:110]!r}: {key} wanted {value}, got {got.get(key)}"
            )
    for key, value in got.items():
        if key in must_not:
            score.broken += 1
            score.misses.append(f"{entry['id']} {entry['say'][:110]!r}: MUST NOT {key}, got {value}")
        if key in expected or key in also or key in must_not:
            score.filled += 1
            good = key not in must_not and fits(key, value, expected.get(key), also.get(key, []))
            score.filled_right += good
            if not good and key not in expected and key not in must_not:
                score.misses.append(
                    f"{entry['id']} {entry['say'][:110]!r}: {key} got {value}, fine {also.get(key)}"
                )


def fits(key: str, got: Any, wanted: Any, also: Any) -> bool:
    """Whether `got` is the wanted value or one of the others that will do (None: left out)."""
    choices = ([wanted] if wanted is not None else []) + (also if isinstance(also, list) else [also])
    return any(_fits_one(key, got, choice) for choice in choices)


def _fits_one(key: str, got: Any, choice: Any) -> bool:
    if isinstance(choice, dict):
        return (
            isinstance(got, int | float)
            and not isinstance(got, bool)
            and choice["min"] <= got <= choice["max"]
        )
    if choice is None or got is None or isinstance(choice, bool) or isinstance(got, bool):
        return got is choice
    if isinstance(choice, int | float) and isinstance(got, int | float):
        default = TEMPERATURE_TOLERANCE if key.endswith("_f") else ORDINARY_TOLERANCE
        return abs(got - choice) <= TOLERANCE.get(key, default)
    return str(got) == str(choice)


def main(arguments: Sequence[str]) -> int:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("files", nargs="*", type=Path)
    parser.add_argument("--misses", action="store_true")
    options = parser.parse_args(arguments)
    vocabulary = read_vocabulary(ROOT / "rules" / "vocabulary.yaml")
    for path in options.files or sorted(DATA.glob("utterances_*.yaml")):
        began = time.perf_counter()
        score = score_file(path, vocabulary)
        print(
            f"{path.stem}: recall {score.recall:.1%} ({score.right}/{score.expected}), precision {score.precision:.1%} "
            f"({score.filled_right}/{score.filled}), must_not broken {score.broken}, "
            f"{1000 * (time.perf_counter() - began):.0f} ms"
        )
        if options.misses:
            print("\n".join(f"   {miss}" for miss in score.misses))
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
