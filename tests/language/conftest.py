"""What the tests of the language share: the vocabulary, read once, and a short way to hear."""

from pathlib import Path

import pytest

from advisor.language.heard import Context
from advisor.language.lexicon import lexicon_of
from advisor.language.understanding import hear, read_tokens
from advisor.vocabulary import read_vocabulary

ROOT = Path(__file__).parents[2]
VOCABULARY = read_vocabulary(ROOT / "rules" / "vocabulary.yaml")


@pytest.fixture(scope="session")
def vocabulary():
    return VOCABULARY


@pytest.fixture(scope="session")
def lexicon():
    return lexicon_of(VOCABULARY)


@pytest.fixture(scope="session")
def listen():
    """listen("words", asked=..., facts=...) -> Heard."""
    return lambda text, **context: hear(text, VOCABULARY, Context(**context))


@pytest.fixture(scope="session")
def figures(lexicon):
    """figures("words") -> [(kind, value, unit)] of every quantity."""

    def read(text):
        found = [token.quantity for token in read_tokens(text, lexicon) if token.quantity]
        return [(quantity.kind, round(quantity.value, 3), quantity.unit) for quantity in found]

    return read
