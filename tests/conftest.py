"""The shipped rule base, read once for all tests, and short ways to ask it."""

import pytest
from logbooks import logbook, place  # noqa: F401  fixtures

from advisor.advice import Advice, Adviser
from advisor.profile import CookerProfile
from advisor.rulebook.loader import Rulebook, read_rulebook
from advisor.situation import Situation
from advisor.wording import Wording


@pytest.fixture(scope="session")
def rulebook() -> Rulebook:
    return read_rulebook()


@pytest.fixture(scope="session")
def adviser(rulebook: Rulebook) -> Adviser:
    return Adviser(rulebook, CookerProfile())


@pytest.fixture
def conversation(rulebook: Rulebook):
    from advisor.conversation import Conversation

    return Conversation(rulebook)


@pytest.fixture
def advise(rulebook: Rulebook, adviser: Adviser):
    """advise(over_f=100, ...) -> Advice on a situation in which just that was told at minute 0."""

    def ask(now: float = 0.0, **facts) -> Advice:
        vocabulary = rulebook.vocabulary
        told = {name: vocabulary.check(name, value) for name, value in facts.items()}
        return adviser.advise(Situation().tell(told, "said", vocabulary, 0.0), now, Wording(vocabulary))

    return ask
