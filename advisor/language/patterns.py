"""The small notation in which the vocabulary writes what people say, and its matcher.

    shut/closed   any one of these words       (again)  may be missing    ...  up to four words of anything
    <ago>         a quantity of that kind      ^ $     start, end of a clause

A word stands for itself and for every word whose base form it is (see `forms` in language.yaml).
"""

import re
from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cache
from typing import Any

from advisor.language.tokens import Token

WIDEST_GAP = 4
SHORTENED = {
    "is": {"'s"},
    "has": {"'s"},
    "are": {"'re"},
    "am": {"'m"},
    "have": {"'ve", "'s"},
    "will": {"'ll"},
    "would": {"'d"},
    "did": {"'d"},
    "had": {"'d"},
}
UNCROSSED = {"not", "no", "never", "without"}  # a gap does not swallow a denial
# Words that may stand between any two words of a pattern and change nothing ("wind just picked up").
PASSED_OVER = {"just", "finally", "really", "suddenly", "also", "actually", "definitely", "literally", "honestly", "basically", "already", "kinda", "properly"}
PLAIN_FIGURES = {"number", "degrees"}
_WORD = re.compile(r"[a-z]+")
MARKERS = {"...", "^", "$"}
GAP, START, END, FIGURE = "...", "^", "$", "<figure>"


@dataclass(frozen=True, slots=True)
class Element:
    """One place in a pattern: the words that fit it, and whether it may be missing."""

    words: frozenset[str]
    optional: bool = False


@dataclass(frozen=True, slots=True)
class Match:
    """`means` was found in tokens[start:end]; `quantity` is the index of the figure in it, or None; `passed` words of it are in no pattern."""

    means: Any
    start: int
    end: int
    quantity: int | None = None
    passed: int = 0

    def __len__(self) -> int:
        return self.end - self.start - self.passed

    def overlaps(self, other: "Match") -> bool:
        return self.start < other.end and other.start < self.end


@cache
def _element(text: str) -> Element:
    optional = text.startswith("(")
    words = set(text.strip("()").split("/"))
    return Element(frozenset(words.union(*(SHORTENED.get(word, ()) for word in words))), optional)


@cache
def elements_of(pattern: str) -> tuple[Element, ...]:
    return tuple(map(_element, pattern.split()))


class PatternBook:
    """Patterns with what they mean, found in tokens in one pass; `exact` ones ignore base forms.

    A pattern is taken apart when its first word is met, so that a book costs little until it is used.
    """

    def __init__(self, entries: Iterable[tuple[str, Any]], exact: bool = False) -> None:
        self._exact = exact
        self._by_first: dict[str, list[tuple[str, Any]]] = defaultdict(list)
        for entry in entries:
            for word in _first_words(entry[0]):
                self._by_first[word].append(entry)

    def words(self) -> set[str]:
        """Every word that stands in a pattern."""
        return {
            word
            for entries in self._by_first.values()
            for pattern, _ in entries
            for word in _WORD.findall(pattern)
        }

    def find(self, tokens: list[Token]) -> list[Match]:
        """All matches, the longest at each start and meaning; they may overlap."""
        found: dict[tuple[int, Any], Match] = {}
        for at in range(len(tokens)):
            for pattern, means in self._candidates(tokens, at):
                elements = elements_of(pattern)
                if _fails_at_once(elements, tokens, at, self._exact):
                    continue
                end, quantity = _match(elements, 0, tokens, at, self._exact)
                if end <= at:
                    continue
                kept = found.get((at, means))
                if kept is None or end > kept.end:
                    found[at, means] = Match(means, at, end, quantity, _passed(elements, tokens, at, end))
        return list(found.values())

    def _candidates(self, tokens: list[Token], at: int) -> Iterator[tuple[str, Any]]:
        token = tokens[at]
        if _starts_clause(tokens, at):
            yield from self._by_first.get(START, ())
        if token.quantity:
            yield from self._by_first.get(f"<{token.quantity.kind}>", ())
            if token.quantity.kind in PLAIN_FIGURES:
                yield from self._by_first.get(FIGURE, ())
            return
        yield from self._by_first.get(token.text, ())
        if token.lemma != token.text and (token.named or not self._exact):
            yield from self._by_first.get(token.lemma, ())


def _first_words(pattern: str) -> set[str]:
    """The words with which a match may begin."""
    words: set[str] = set()
    for part in pattern.split():
        for word in part.strip("()").split("/"):
            words.add(word)
            words |= SHORTENED.get(word, set())
        if not part.startswith("("):
            break
    return words


def _starts_clause(tokens: list[Token], at: int) -> bool:
    return at == 0 or tokens[at - 1].is_pause


def _fits(element: Element, token: Token, exact: bool) -> bool:
    if token.quantity:
        return f"<{token.quantity.kind}>" in element.words or (
            FIGURE in element.words and token.quantity.kind in PLAIN_FIGURES
        )
    return token.text in element.words or (token.lemma in element.words and (token.named or not exact))


def _fails_at_once(elements: tuple[Element, ...], tokens: list[Token], at: int, exact: bool) -> bool:
    """A cheap look at the second word, which most candidates lack."""
    if len(elements) < 2 or elements[0].optional or elements[1].optional:
        return False
    if elements[0].words & MARKERS or elements[1].words & MARKERS:
        return False
    if at + 1 < len(tokens) and tokens[at + 1].text in PASSED_OVER:
        return False
    return at + 1 >= len(tokens) or not _fits(elements[1], tokens[at + 1], exact)


def _passed(elements: tuple[Element, ...], tokens: list[Token], start: int, end: int) -> int:
    """How many of tokens[start:end] were passed over."""
    if GAP in {word for element in elements for word in element.words}:
        return 0
    return sum(
        token.text in PASSED_OVER and not any(token.text in element.words for element in elements) for token in tokens[start:end]
    )


def _match(
    elements: tuple[Element, ...], place: int, tokens: list[Token], at: int, exact: bool
) -> tuple[int, int | None]:
    """(end, index of the figure) where elements[place:] match at `at`; end is -1 where they do not."""
    if place == len(elements):
        return at, None
    element = elements[place]
    if GAP in element.words:
        return _match_gap(elements, place, tokens, at, exact)
    if START in element.words:
        return _match(elements, place + 1, tokens, at, exact) if _starts_clause(tokens, at) else (-1, None)
    if END in element.words:
        ended = at >= len(tokens) or tokens[at].is_pause
        return _match(elements, place + 1, tokens, at, exact) if ended else (-1, None)
    if at < len(tokens) and _fits(element, tokens[at], exact):
        end, quantity = _match(elements, place + 1, tokens, at + 1, exact)
        if end >= 0:
            return end, at if quantity is None and tokens[at].quantity else quantity
    end, quantity = _match(elements, place + 1, tokens, at, exact) if element.optional else (-1, None)
    if end < 0 < place and at + 1 < len(tokens) and tokens[at].text in PASSED_OVER and _fits(element, tokens[at + 1], exact):
        return _match(elements, place, tokens, at + 1, exact)
    return end, quantity


def _match_gap(
    elements: tuple[Element, ...], place: int, tokens: list[Token], at: int, exact: bool
) -> tuple[int, int | None]:
    for skip in range(WIDEST_GAP + 1):
        end, quantity = _match(elements, place + 1, tokens, at + skip, exact)
        if end >= 0:
            return end, quantity
        if at + skip >= len(tokens) or tokens[at + skip].is_pause or tokens[at + skip].text in UNCROSSED:
            break
    return -1, None


def longest_first(matches: Iterable[Match]) -> list[Match]:
    """Matches without those that a longer one overlaps, in text order."""
    kept: list[Match] = []
    taken: set[int] = set()
    for match in sorted(matches, key=lambda found: (-len(found), found.start)):
        places = range(match.start, match.end)
        if taken.isdisjoint(places):
            kept.append(match)
            taken.update(places)
    return sorted(kept, key=lambda found: found.start)
