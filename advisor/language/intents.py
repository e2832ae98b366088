"""What the person wants with the message: tell, ask, why, why not, what if, done, thanks ..."""

import re

from advisor.language.heard import Intent
from advisor.language.message import Message
from advisor.language.moods import denied
from advisor.language.patterns import longest_first

_WHY_NOT = re.compile(
    r"^(?:but |so |and |ok |okay )*(?:why (?:not|can not i|should not i|do not (?:i|we)|could not i|would not i)|"
    r"why can (?:i|we) not|how come i can not)\b(?: (?:just|simply|i))*\s*(?P<rest>.*)$"
)
_WHAT_IF = re.compile(
    r"\b(?:what (?:if|happens? (?:if|when)|would happen if)|suppose|supposing|imagine|and if|but if)\b\s*(?P<rest>.*)$"
)
_IF = re.compile(r"^(?:ok |so |and |but )*if (?P<rest>(?:i|we|it|she|the)\b.*)$")
_WHY = re.compile(
    r"^(?:but |so |and |ok |okay |um |er )*(?:why|how come|what for|what is the reason|explain|what makes you say)\b"
    r"|[,.;:] (?:but |and |so )?why(?: (?:is|be) (?:that|it|this))?(?: \?)?$"
)
_ASKING = re.compile(
    r"^(?:ok |so |and |but |or |well )*(?!when (?:i|it|we|she|he|they|the|my)\b|did (?:what|as|everything|all|both|that)\b)"
    r"(?!(?:is|are|can|could|should|do|does|did|will|would|has|have|am) not "
    r"(?!i\b|it\b|we\b|she\b|you\b|they\b|that\b|this\b|the\b))"
    r"(?:(?:at|in|on|for|from|to|with|by) (?=how|what|which))?"
    r"(?:is|are|can|could|should|shall|ought|do|does|did|will|would|may|how|how_hot|what|which|when|where|who|am|has|have"
    r"|any)\b"
)
_ASKING_LATER = re.compile(
    r"[.!;,:()\n] (?:and |but |so |or |then )*(?:how|how_hot|what|which|when|where|who|"
    r"(?:is|are|should|shall|can|could|do|will|would|may|am) (?:i|we|it|that|this|she|the|my|there))\b"
)


def intents_of(message: Message) -> tuple[list[Intent], str]:
    """(intents in order of weight, the words after "why not" or "what if"); `tell` and `off_topic` come later."""
    text = message.words()
    found: list[Intent] = []
    argument = ""
    why_not, what_if = _WHY_NOT.search(text), _WHAT_IF.search(text) or _IF.search(text)
    if why_not:
        found, argument = ["why_not"], why_not["rest"]
    elif what_if:
        found, argument = ["what_if"], what_if["rest"]
    elif _WHY.search(text):
        found = ["why"]
    found += _by_words(message)
    if not {"why", "why_not", "what_if"} & set(found) and _is_question(message, text):
        found.append("ask")
    return list(dict.fromkeys(found)), argument.strip(" ?.!")


def _by_words(message: Message) -> list[Intent]:
    means = [
        match.means
        for match in longest_first(message.lexicon.intents.find(message.tokens))
        if message.moods[match.start] not in ("elsewhere", "bygone", "suppose")
    ]
    return ["done" if name == "all_done" else name for name in means]


def is_all_done(message: Message) -> bool:
    return any(match.means == "all_done" for match in message.lexicon.intents.find(message.tokens))


def done_steps(message: Message) -> tuple[int, ...]:
    """Numbers of the steps reported done: "did 1 and 2", "step three done"."""
    steps = []
    for at, token in enumerate(message.tokens):
        if denied(message.tokens, at, message.lexicon):
            continue  # "did step 1 but not 2"
        quantity = token.quantity
        if quantity and quantity.kind == "number" and quantity.span:
            steps += [int(quantity.span[0]), int(quantity.span[1])]
        elif quantity and quantity.kind == "number" and quantity.value == int(quantity.value):
            steps.append(int(quantity.value))
        elif token.text in _ORDINALS:
            steps.append(_ORDINALS[token.text])
    return tuple(dict.fromkeys(step for step in steps if 1 <= step <= 12))


_ORDINALS = {
    "one": 1,
    "two": 2,
    "first": 1,
    "second": 2,
    "third": 3,
    "fourth": 4,
    "1st": 1,
    "2nd": 2,
    "3rd": 3,
}


def _is_question(message: Message, text: str) -> bool:
    return (
        any(token.text == "?" for token in message.tokens)
        or bool(_ASKING.search(text))
        or bool(_ASKING_LATER.search(text))
        or any(mood in ("ask", "plan") for mood in message.moods)
    )
