"""Words made ready for the patterns: short forms written out, misspellings mended, parts and foods named."""

import itertools
import re
from functools import lru_cache

from advisor.language.lexicon import Lexicon
from advisor.language.patterns import Match, longest_first
from advisor.language.spelling import Spelling, skeleton, spelling_of
from advisor.language.tokens import Token

SHORTEST_MENDED = 4
SHORTEST_SWAPPED = 3
LONG_WORD = 8  # from here on two slips are forgiven
_DOUBLED = re.compile(r"(.)\1")
_THRICE = re.compile(r"(.)\1{2,}")
BEFORE_WE = {"now", "so", "if", "when", "that", "because"}
VENT_LETTERS = {"b": "bottom", "t": "top", "bv": "bottom", "tv": "top"}
_NEGATED = ("n", "'t")


def write_out(tokens: list[Token], lexicon: Lexicon) -> list[Token]:
    """Short forms in full: "isn't" -> is not, "wont" -> will not, "fires" -> fire is."""
    out: list[Token] = []
    for token in tokens:
        if token.text == "were" and (not out or out[-1].is_pause or out[-1].text in BEFORE_WE):
            out += [Token("we", "word"), Token("are", "word")]
        elif token.text == "'t" and out:
            out[-1:] = _not(out[-1])
        elif (
            token.kind == "word"
            and not token.text.startswith("'")
            and token.text in lexicon.short_forms
            and not _is_unit_letter(token, out)
        ):
            out += [Token(word, "word") for word in lexicon.short_forms[token.text]]
        else:
            out.append(token)
    return out


def _is_unit_letter(token: Token, before: list[Token]) -> bool:
    return bool(len(token.text) == 1 and before and before[-1].kind == "number")


def _not(verb: Token) -> list[Token]:
    stem = {"won": "will", "can": "can", "ain": "is", "shan": "shall"}.get(
        verb.text, verb.text.removesuffix("n")
    )
    return [Token(stem, "word"), Token("not", "word")]


def mend(tokens: list[Token], lexicon: Lexicon) -> list[Token]:
    """Words that nobody knows made the nearest trade word, where one is near enough."""
    spelling = spelling_of(lexicon)
    for token in tokens:
        if (
            token.kind == "word"
            and token.text.isalpha()
            and token.text.isascii()
            and token.text not in spelling.common_words
            and token.text not in spelling.known_words
        ):
            token.text = token.lemma = _mended(token.text, lexicon, spelling)
    return tokens


def _mended(word: str, lexicon: Lexicon, spelling: Spelling) -> str:
    if _THRICE.search(word):
        for repeat in (r"\1\1", r"\1"):
            shorter = _THRICE.sub(repeat, word)
            if shorter in spelling.known_words:
                return shorter
        word = _THRICE.sub(r"\1", word)
    if swapped := _swapped_back(word, spelling):
        return swapped
    single = _DOUBLED.sub(r"\1", word)
    if single != word and single in spelling.known_words:
        return single
    if word.endswith("in") and word + "g" in spelling.known_words | lexicon.lemmas.keys():
        return word + "g"
    if len(word) < SHORTEST_MENDED or len(word) > 20:
        return word
    return spelling.skeletons.get(skeleton(word)) or _nearest(word, spelling.trade_words)


def _swapped_back(word: str, spelling: Spelling) -> str:
    """ "Teh", "wnat": the plain word with two letters the other way round; "" where there is none, or more than one."""
    turned = {word[:i] + word[i + 1] + word[i] + word[i + 2 :] for i in range(len(word) - 1)}
    found = sorted(turned & spelling.common_words)
    return found[0] if len(found) == 1 and len(word) >= SHORTEST_SWAPPED else ""


@lru_cache(maxsize=2000)
def _nearest(word: str, choices: tuple[str, ...]) -> str:
    from rapidfuzz.distance import OSA  # only messages with an unknown word pay for it

    farthest = 1 if len(word) < LONG_WORD else 2
    best, distance = word, farthest + 1
    for choice in choices:
        if abs(len(choice) - len(word)) > farthest or choice[0] not in word[:2]:
            continue
        found = OSA.distance(word, choice, score_cutoff=farthest)
        if found < distance:
            best, distance = choice, found
    return best


def name(tokens: list[Token], lexicon: Lexicon) -> list[Token]:
    """Tokens with lemmas, idioms blanked, and each name of a part or a food made one token."""
    tokens = _without_hyphens(tokens)
    _write_out_letters(tokens, lexicon)
    for token in tokens:
        if token.kind == "word":
            token.lemma = lexicon.lemmas.get(token.text, token.text)
    on_the_ground = any(token.text in lexicon.data["grounds"] for token in tokens)
    for token, after in itertools.pairwise(tokens):
        if token.text == "dropped" and after.text in lexicon.data["dropped_in"] and not on_the_ground:
            token.text, token.lemma = "put", "put"
    tokens = _replace(tokens, longest_first(lexicon.idioms.find(tokens)), _idiom)
    return _join_foods(_replace(tokens, longest_first(lexicon.names.find(tokens)), _named))


def _write_out_letters(tokens: list[Token], lexicon: Lexicon) -> None:
    """ "B 2in t shut": a letter that has an opening right behind it is that vent's."""
    for token, after in itertools.pairwise(tokens):
        vent = VENT_LETTERS.get(token.text)
        opening = after.quantity.kind in ("fraction", "inches") if after.quantity else (
            lexicon.lemmas.get(after.text, after.text) in ("open", "shut") or after.text in ("wide", "cracked"))
        if vent and opening:
            token.text, token.kind = vent, "word"


def _without_hyphens(tokens: list[Token]) -> list[Token]:
    """ "See-saws", "heat-soaked" as two words."""
    tokens = [
        token
        for at, token in enumerate(tokens)
        if "ish" not in _texts(tokens, at, at + 2) or "-" not in _texts(tokens, at - 1, at + 1)
    ]
    return [
        token
        for at, token in enumerate(tokens)
        if not (
            token.text == "-"
            and token.glued
            and 0 < at < len(tokens) - 1
            and tokens[at - 1].kind == tokens[at + 1].kind == "word"
            and tokens[at + 1].glued
        )
    ]


def _texts(tokens: list[Token], start: int, end: int) -> list[str]:
    return [token.text for token in tokens[max(0, start) : end]]


def _replace(tokens: list[Token], matches: list[Match], make) -> list[Token]:
    out: list[Token] = []
    at = 0
    for match in matches:
        out += tokens[at : match.start]
        out.append(make(tokens, match))
        at = match.end
    return out + tokens[at:]


def _idiom(tokens: list[Token], match: Match) -> Token:
    return Token("_".join(token.text for token in tokens[match.start : match.end]), "word", lemma="idiom")


def _named(tokens: list[Token], match: Match) -> Token:
    kind, what = match.means
    said = " ".join(token.text for token in tokens[match.start : match.end])
    if kind == "name":
        return Token(said, "word", lemma=what, named=True)
    return Token(said, "word", lemma="food", names=frozenset({what}), named=True)


def _join_foods(tokens: list[Token]) -> list[Token]:
    """ "pork" + "shoulder" is one food; a cut such as "breast" or "flat" is one only beside a food."""
    out: list[Token] = []
    for token in tokens:
        before = out[-1] if out and out[-1].lemma == "food" else None
        if token.lemma == "food" and before and token.names & before.names != {"parts"}:
            names = (before.names | token.names) - {"parts"}
            out[-1] = Token(f"{before.text} {token.text}", "word", lemma="food", names=names, named=True)
        else:
            out.append(token)
    return [_only_part(token) if token.names == {"parts"} else token for token in out]


def _only_part(token: Token) -> Token:
    return Token(token.text, "word")
