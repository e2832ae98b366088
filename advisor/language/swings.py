"""A dome that goes to and fro with the hands: "every time i close it it drops, every time i open it it shoots up"."""

import re

from advisor.facts import Value
from advisor.language.message import Message

_LEAD = re.compile(r"\b(?:every time|each time|whenever|any time|the (?:minute|moment|second)|as soon as|soon as|if i|if we|when i|when we|once i)\b")
RISES = {"climb", "shoots", "shoot", "soars", "rockets", "up", "hotter", "runs", "flies", "races"}
FALLS = {"drop", "dies", "die", "tanks", "tank", "down", "colder", "under", "chokes", "crashes"}


def to_and_fro(message: Message) -> dict[str, Value]:
    """`swinging` where opening and closing are told to send it up and down again and again."""
    hands = _hands(message)
    if hands is None:
        return {}
    between = [token for at, token in enumerate(message.tokens) if at not in hands]
    words = {word for token in between for word in (token.text, token.lemma)}
    return {"trend": "swinging"} if words & RISES and words & FALLS else {}


def _hands(message: Message) -> set[int] | None:
    """Places of the words that open and close ("close it down"), where both are done again and again; else None."""
    again = len(_LEAD.findall(message.words().replace("_", " "))) >= 2
    done = [at for at, token in enumerate(message.tokens) if token.lemma in ("open", "shut") and _by_somebody(message, at, again)]
    if {message.tokens[at].lemma for at in done} != {"open", "shut"}:
        return None
    return {at + ahead for at in done for ahead in range(1, 4) if message.words(at + ahead, at + ahead + 1) in ("it", "her", "up", "down", "a")}


def _by_somebody(message: Message, at: int, again: bool) -> bool:
    """ "I close", and where nothing says "every time", in the present tense alone."""
    return message.words(at - 1, at) in ("i", "we", "just") and (again or message.tokens[at].text in ("open", "close"))
