"""Refuses, before the engine sees them, the patterns on which its matcher crashes, hangs or lies.

The limits were measured on durable_rules 2.0.28; each is kept well below the point of failure.
"""

from collections import Counter, defaultdict
from collections.abc import Iterable

from advisor.errors import InferenceError
from advisor.inference.patterns import Pattern, Production

MOST_PATTERNS = 7         # joins of 2-7 facts are proven; 17 fail
MOST_IDENTICAL = 250      # 256 rules with one identical pattern crash the process
MOST_KINDS = 480          # 513 different first conditions hang the compiler
MOST_AT_ONCE = 60         # one fact meeting more than 64 nodes at once is refused in the middle of a run
MOST_SALIENCE = 60_000    # an unsigned 16-bit number that wraps
MOST_PRODUCTIONS = 4_000  # 4,096 fail
LONGEST_WORD = 4_000      # bytes; from 65,536 on, different texts are taken for equal


def check_patterns(productions: Iterable[Production]) -> None:
    """Raises InferenceError naming the rule and the limit."""
    productions = tuple(productions)
    _limit(len(productions), MOST_PRODUCTIONS, "the rule base", "rules")
    for made in productions:
        _limit(len(made.patterns), MOST_PATTERNS, made.name, "conditions")
        _limit(made.salience, MOST_SALIENCE, made.name, "as salience")
        if not made.patterns:
            raise InferenceError(f"{made.name} has no condition that must hold", "it would fire for ever",
                                 "give it at least one under `when`")
    patterns = [pattern for made in productions for pattern in made.patterns]
    for pattern, times in Counter(patterns).items():
        _limit(times, MOST_IDENTICAL, f"the condition on {pattern.kind}", "rules sharing it")
    _limit(len({pattern.kind for pattern in patterns}), MOST_KINDS, "the rule base", "facts in conditions")
    _check_hashes({pattern.kind for pattern in patterns})
    _check_load(patterns)


def _check_load(patterns: list[Pattern]) -> None:
    """A sound bound on the nodes one fact can meet at once: all the different tests on its kind."""
    tests = defaultdict(set)
    for pattern in patterns:
        tests[pattern.kind] |= set(pattern.tests)
        for test in pattern.tests:
            if isinstance(test.constant, str) and len(test.constant.encode()) > LONGEST_WORD:
                raise InferenceError(f"a word of {len(test.constant)} letters", "the matcher cuts it", "shorten it")
    for kind, found in tests.items():
        words = {test.constant for test in found if test.operator == "=="}
        _limit(len(found) - max(0, len(words) - 1), MOST_AT_ONCE, f"the fact {kind}", "different bounds")


def _check_hashes(names: set[str]) -> None:
    """Names are compared by a 32-bit hash only: two that collide would be one fact."""
    seen: dict[int, str] = {}
    for name in sorted(names):
        twin = seen.setdefault(_fnv32(name), name)
        if twin != name:
            raise InferenceError(f"{name} and {twin} look alike to the matcher", "it would mix them up",
                                 "rename one of them")


def _fnv32(text: str) -> int:
    """FNV-1a, 32 bit (Fowler, Noll, Vo)."""
    value = 2166136261
    for byte in text.encode():
        value = ((value ^ byte) * 16777619) & 0xFFFFFFFF
    return value


def _limit(number: int, most: int, what: str, unit: str) -> None:
    if number > most:
        raise InferenceError(f"{what} has {number} {unit}", f"the engine is safe up to {most}",
                             "split it with a fact of understand/")
