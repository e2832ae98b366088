"""What a speaker takes back in the middle of a message, taken out before anything is read from it.

"Dome is 220, no hang on, 250" becomes "dome is 250"; "not 4 kilos of charcoal, 4 pounds" becomes "4 pounds of charcoal".
"""

import re
from dataclasses import replace

from advisor.language.lexicon import Lexicon
from advisor.language.tokens import Quantity, Token

FARTHEST_BACK = 14   # tokens: what is put right stands no farther back
MOST_FILLERS = 5
WIDEST_SLIP = 4.0    # a figure put right by one that differs by more is another figure
UNITS = {"hour": 60.0, "hr": 60.0, "pound": 0.45359237, "lb": 0.45359237, "mm": 0.0393701, "cm": 0.393701}
INHERITED = {"degrees", "minutes", "ago", "kg", "inches"}
FILLERS = {"a", "an", "it", "is", "was", "be", "'s", "about", "more", "like", "just", "only", "at", "to", "the", "says", "reads", "reading",
           "that", ",", "from", "roughly", "actually", "now"}
GOES_ON = {"not", "instead", "now", "and", "but", "then", "so", "please", "today", "ok", "okay"}
NOT_YET = {"yet", "quite", "even", "over", "above", "under", "below", "more", "less"}
DENIED = {"not"}
LEADS_ON = {"it", "is", "was", "be", "'s", "but", ",", "they", "are"}


def repaired(tokens: list[Token], lexicon: Lexicon) -> list[Token]:
    """`tokens` without what was taken back in them."""
    for one in (_done_as_told, _other_owner, _denied_figure, _put_right, _meant_at_the_end):
        tokens = one(tokens, lexicon)
    return tokens


def _put_right(tokens: list[Token], lexicon: Lexicon) -> list[Token]:
    """The figure before "no wait", "sorry", "i mean" gives way to the one behind it."""
    if sum(token.quantity is not None for token in tokens) < 2:
        return tokens
    edits = lexicon.edits.find(tokens)
    for edit in sorted(edits, key=lambda match: (match.start, -match.end)):
        end = _end_of_edits(tokens, edit.end, edits)
        at = _figure_after(tokens, end)
        wrong = _figure_before(tokens, edit.start, tokens[at].quantity) if at is not None else None
        if at is not None and wrong is not None and _stands_alone(tokens, at):
            right = replace(tokens[wrong], quantity=_taking_over(tokens[wrong].quantity, tokens[at].quantity), text=tokens[at].text,
                            lemma=tokens[at].text)
            start = edit.start - (edit.start > 0 and tokens[edit.start - 1].is_pause)
            return _put_right([*tokens[:wrong], right, *tokens[wrong + 1 : start], *tokens[at + 1 :]], lexicon)
    return tokens


def _end_of_edits(tokens: list[Token], end: int, edits: list) -> int:
    """Past further such words right behind: "no , sorry ,"."""
    while True:
        at = end + (end < len(tokens) and tokens[end].is_pause)
        further = max((match.end for match in edits if match.start == at), default=end)
        if further <= end:
            return end
        end = further


def _figure_after(tokens: list[Token], at: int) -> int | None:
    for place in range(at, min(at + MOST_FILLERS + 1, len(tokens))):
        if tokens[place].quantity:
            return place
        if tokens[place].text not in FILLERS:
            return None
    return None


def _figure_before(tokens: list[Token], end: int, right: Quantity) -> int | None:
    for at in range(end - 1, max(-1, end - 1 - FARTHEST_BACK), -1):
        wrong = tokens[at].quantity
        if wrong and _is_alike(wrong, right):
            return at
    return None


def _is_alike(wrong: Quantity, right: Quantity) -> bool:
    """Whether one may be said for the other: of a kind, or a bare figure for one with a unit; and not far apart."""
    if wrong.kind == right.kind == "clock":
        return True
    first, second = wrong.value, right.value
    if {wrong.kind, right.kind} == {"minutes", "ago"}:
        return _is_near(first, second)
    if wrong.kind != right.kind:
        if right.kind != "number" or wrong.kind not in INHERITED:
            return {wrong.kind, right.kind} == {"number", "degrees"} and _is_near(first, second)
        first = first / _unit_of(wrong)
    return _is_near(first, second)


def _is_near(first: float, second: float) -> bool:
    return first > 0 and second > 0 and 1 / WIDEST_SLIP <= first / second <= WIDEST_SLIP


def _unit_of(quantity: Quantity) -> float:
    words = re.findall(r"[a-z]+", quantity.said)
    return next((size for word in words for unit, size in UNITS.items() if word.startswith(unit)), 1.0)


def _taking_over(wrong: Quantity, right: Quantity) -> Quantity:
    """The figure of `right`, in the unit of `wrong` where it names none itself."""
    if wrong.kind == "ago" and right.kind == "minutes":
        return replace(right, kind="ago")
    if right.kind != "number" or wrong.kind not in INHERITED:
        return right
    return replace(wrong, value=right.value * _unit_of(wrong), span=None)


def _stands_alone(tokens: list[Token], at: int) -> bool:
    """Whether nothing behind the figure makes it one of something else ("sorry, 250 is the target")."""
    return at + 1 == len(tokens) or tokens[at + 1].is_pause or tokens[at + 1].text in GOES_ON


def _denied_figure(tokens: list[Token], lexicon: Lexicon) -> list[Token]:
    """ "Not 4 kilos of charcoal, 4 pounds"; "it was not 30 over, it was 30 under"."""
    for at, token in enumerate(tokens):
        wrong = at + 1 + (tokens[at + 1 : at + 2] != [] and tokens[at + 1].text in ("at", "a"))
        if token.text not in DENIED or wrong >= len(tokens) or not tokens[wrong].quantity:
            continue
        right = next((place for place in range(wrong + 1, min(wrong + 10, len(tokens))) if tokens[place].quantity), None)
        if right is None or not _is_alike(tokens[wrong].quantity, tokens[right].quantity):
            continue
        between = tokens[wrong + 1 : right]
        if any(one.is_break for one in between) or between[:1] and between[0].text in NOT_YET - {"over", "under", "above", "below"}:
            continue
        cut = next((place for place in range(wrong + 1, right) if tokens[place].is_pause or tokens[place].text in LEADS_ON), None)
        if cut is None or not all(one.text in LEADS_ON | FILLERS for one in tokens[cut:right]):
            continue
        if right + 1 == len(tokens) or tokens[right + 1].is_pause:
            owned = tokens[wrong + 1 : cut]
            if not _is_side(owned):
                return [*_as_it_is(tokens[:at]), tokens[right], *owned, *tokens[right + 1 :]]
        return [*_as_it_is(tokens[:at]), *tokens[right:]]
    return tokens


def _as_it_is(tokens: list[Token]) -> list[Token]:
    """ "It was not 30 over, it was 30 under" tells how it is."""
    return [*tokens[:-1], Token("is", "word", lemma="be")] if tokens and tokens[-1].text in ("was", "were") else tokens


def _is_side(words: list[Token]) -> bool:
    return bool(words) and words[0].text in NOT_YET


def _other_owner(tokens: list[Token], lexicon: Lexicon) -> list[Token]:
    """ "The meat is not at 190, the grate is": the figure, or the state, is the other one's."""
    for at in range(1, len(tokens) - 1):
        if tokens[at].text not in DENIED or tokens[at - 1].lemma != "be":
            continue
        comma = next((place for place in range(at + 2, min(at + 6, len(tokens))) if tokens[place].is_pause), None)
        tail = [token for token in tokens[comma + 1 :] if token.text not in ("the", "but", "my", "and")] if comma else []
        if comma and len(tail) >= 2 and tail[1].lemma == "be" and (len(tail) == 2 or tail[2].is_pause):
            rest = tail[2:]
            return [*tokens[: max(0, at - 2)], tail[0], tokens[at - 1], *tokens[at + 1 : comma], *rest]
    return tokens


def _meant_at_the_end(tokens: list[Token], lexicon: Lexicon) -> list[Token]:
    """ "A quarter open, the top i mean": the words that only name what was meant."""
    for at in range(2, len(tokens) - 1):
        ends = at + 2 == len(tokens) or tokens[at + 2].is_pause
        if ends and tokens[at].text == "i" and tokens[at + 1].text in ("mean", "meant") and not tokens[at - 1].is_pause:
            return [*tokens[:at], *tokens[at + 2 :]]
    return tokens


def _done_as_told(tokens: list[Token], lexicon: Lexicon) -> list[Token]:
    """ "Neighbour said to shut both vents. I did, 25 minutes ago": what was advised, as a deed."""
    if not {"did", "have", "had"} & {token.text for token in tokens}:
        return tokens
    for advised in lexicon.advised.find(tokens):
        done = next((match for match in lexicon.followed.find(tokens) if match.start > advised.end), None)
        if done and sum(token.is_break for token in tokens[advised.end : done.start]) <= 1:
            return [*tokens[: advised.start], *tokens[advised.end : done.start], *tokens[done.end :]]
    return tokens
