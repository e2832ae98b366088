"""Compare the engine with the plain matcher on many situations at random: python engine_against_matcher.py 10000 [seed]

Prints how many agreed and every situation that did not; exit status 1 if any.
"""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent.parent))
sys.path.insert(0, str(Path(__file__).parent.parent.parent))

from plain_matcher import PlainMatcher
from random_situations import RandomSituations
from test_engine_against_matcher import differences, engine_outcome, known

from advisor.inference.reasoner import Reasoner
from advisor.rulebook.loader import read_rulebook


def main(number: int, seed: int) -> int:
    rulebook = read_rulebook()
    reasoner, plain = Reasoner(rulebook), PlainMatcher(rulebook)
    wrong, fired, firings = 0, set(), 0
    for told, origin in RandomSituations(rulebook).many(number, seed):
        facts = known(told, origin, rulebook)
        here = engine_outcome(reasoner, facts)
        fired |= here.fired
        firings += len(here.fired)
        if found := differences(here, plain.chain(facts)):
            wrong += 1
            print(told, origin, *found, sep="\n  ")
    print(f"{number} situations, {firings} firings of {len(fired)} of {len(rulebook.rules)} rules: "
          f"{number - wrong} the same, {wrong} different")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main(int(sys.argv[1]) if len(sys.argv) > 1 else 10_000, int(sys.argv[2]) if len(sys.argv) > 2 else 1))
