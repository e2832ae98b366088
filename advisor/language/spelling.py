"""Which words stand as they are, and which trade word a misspelt one is mended into."""

import re
from functools import cached_property

from advisor.language.lexicon import Lexicon
from advisor.language.spoken import NUMBER_WORDS
from advisor.language.unit_words import UNIT_WORDS


def skeleton(word: str) -> str:
    """The first letter and the consonants after it, doubles once."""
    return word[:1] + re.sub(r"(.)\1+", r"\1", re.sub("[aeiouy]", "", word[1:]))


class Spelling:
    """The words of one lexicon by what mending wants to know of them."""

    def __init__(self, lexicon: Lexicon) -> None:
        self._lexicon = lexicon

    @cached_property
    def common_words(self) -> frozenset[str]:
        """Words that stand as they are, whatever they look like."""
        return frozenset(
            {
                *self._lexicon.lemmas,
                *self._lexicon.lemmas.values(),
                *self._lexicon.short_forms,
                *self._lexicon.data["common_words"].split(),
                *self._lexicon.data["talk"].split(),
                *UNIT_WORDS,
                *NUMBER_WORDS,
            }
        )

    @cached_property
    def known_words(self) -> frozenset[str]:
        """The common words and every word of a pattern; a dear set, wanted for strange words alone."""
        lexicon = self._lexicon
        books = (
            lexicon.phrases,
            lexicon.owners,
            lexicon.after_figures,
            lexicon.differences,
            lexicon.topics,
            lexicon.openings,
            lexicon.moods,
            lexicon.idioms,
            lexicon.intents,
            lexicon.answers,
            lexicon.names,
            lexicon.events,
        )
        return self.common_words.union(*(book.words() for book in books))

    @cached_property
    def skeletons(self) -> dict[str, str]:
        """Trade words by their consonants, for "dropng" and "gaskit"."""
        return {skeleton(word): word for word in reversed(self.trade_words) if len(skeleton(word)) >= 4}

    @cached_property
    def trade_words(self) -> tuple[str, ...]:
        """The words that a misspelling may be mended into."""
        return tuple(self._lexicon.data["mend_into"].split())


_spellings: dict[int, Spelling] = {}


def spelling_of(lexicon: Lexicon) -> Spelling:
    """The spelling that goes with a lexicon, built once for each."""
    found = _spellings.get(id(lexicon))
    if found is None or found._lexicon is not lexicon:
        found = _spellings[id(lexicon)] = Spelling(lexicon)
    return found
