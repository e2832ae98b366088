"""Whether words beside a vent tell an opening at all: denied, a part's size, full of ash, a chimney of charcoal."""

from advisor.language.message import Message
from advisor.language.moods import denied
from advisor.language.patterns import Match

MOVES = {"opened", "closed", "moved", "nudged", "tweaked", "adjusted", "turned", "cracked", "reopened"}
STARTERS = {"a", "full", "half", "another", "lit", "unlit", "second", "whole"}  # words before a chimney that lights charcoal


def was_a_move(message: Message) -> bool:
    """ "Opened the top", "nudged it": somebody did it a moment ago, where "the top is open" says how it stands."""
    return any(
        token.text in MOVES and message.moods[at] == "said" and not denied(message.tokens, at, message.lexicon)
        for at, token in enumerate(message.tokens)
    )


def is_told(message: Message, match: Match) -> bool:
    """Whether the opening is stated: not asked, supposed or denied."""
    return message.moods[match.start] == "said" and not denied(message.tokens, match.start, message.lexicon)


def is_a_size(message: Message, match: Match) -> bool:
    """ "My slide travels 3 inches": how long the part is, not how far open."""
    start, end = message.clause(match.start)
    return bool({token.text for token in message.tokens[start:end]} & set(message.lexicon.data["sizes"]))


def is_a_starter(message: Message, at: int) -> bool:
    """ "A full chimney", "a chimney of lump": charcoal lit beside the cooker, no vent."""
    ahead, behind = message.words(max(0, at - 1), at), message.words(at + 1, at + 2)
    return message.tokens[at].text == "chimney" and (ahead in STARTERS or behind in ("of", "starter"))


def is_filled(message: Message, match: Match) -> bool:
    """ "Bottom vent's full of ash": no word of how far it is open."""
    return message.tokens[match.end - 1].text == "full" and message.words(match.end, match.end + 1) == "of"
