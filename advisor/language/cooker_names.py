"""Where one of several cookers is named in a message: "number two", "the left one", "p1", "the chicken on 2"."""

from advisor.cooknames import same_cooker
from advisor.language.message import Message
from advisor.language.spoken import ONES
from advisor.language.tokens import Token

OF_THE_FIRE = {"trend", "fire_out", "flames", "smoke", "smoke_amount", "grease_fire", "stage"}
KINDS, LETTERS = ("pit", "cooker", "kamado", "stall", "station"), "abcdefgh"
SAID_OF_ONE = {"be", "have", "top", "bottom", "both", "vent", "lid"}  # words behind the name of a cooker
LEAST_READING = 60  # a smaller figure after "first" is a count
_NUMBER_WORDS = {word: str(value) for word, value in ONES.items() if 1 <= value <= 9}


def named_at(message: Message, at: int) -> str | None:
    """The cooker's name that ends at token `at`, as a number or a word; None where there is none."""
    tokens, rules = message.tokens, message.lexicon.data["cookers"]
    token, before, after = tokens[at], text_of(tokens, at - 1), text_of(tokens, at + 1)
    if (
        before in ("number", "#", "cooker", "pit", "kamado")
        or before in ("p", "c", "k", "nr", "cook") and token.glued
        or before == "no"
        and text_of(tokens, at - 2) == "cooker"
    ):
        value = small_number(token) or _owner_by_number(token)
        if value and not (
            after in ("degrees", "°") or before == "number" and text_of(tokens, at - 2) in ("what", "step")
        ):
            return value
    if before == "on" and at <= 1 and after in ("the", ",") and small_number(token):
        return small_number(token)  # "on two the top is shut"
    if text_of(tokens, at - 2) in ("did", "done", "finished") or before in ("did", "step", "done"):
        return None
    if before == "no":
        return None  # "no second one"
    if before in ("my", "our") and token.text == "first" and not _is_subject(tokens, at + 1):
        return None  # "picked up my first cooker"
    if token.text in rules["ordinals"] and (after in rules["kinds"] or _is_subject(tokens, at)):
        return rules["ordinals"][token.text]
    if (
        token.text in rules["adjectives"]
        and after in rules["kinds"]
        and before not in ("a", "another", "each", "this", "which", "no")
    ):
        return token.text
    if token.lemma == "food" and after in rules["kinds"] and before in ("the", "my", "our"):
        return token.text
    if before in KINDS and token.text in LETTERS and at + 1 < len(tokens) and (is_reading(tokens[at + 1]) or tokens[at + 1].lemma == "be"):
        return token.text
    return _known_name(message, at) or _known_number(message, at)


def resolved(message: Message, name: str | None) -> str | None:
    """ "The other one": of two cookers going, the one that is not in hand; of more, nobody knows which."""
    if name != "other":
        return name
    others = [known for known in message.context.cookers if not same_cooker(known, message.context.current or "1")]
    return name if not others else others[0] if len(others) == 1 else None


def is_meant(message: Message, at: int) -> bool:
    """Whether the cooker named at `at` is meant at all: not so in "not the left one, the right one"."""
    ahead = [token.text for token in message.tokens[max(0, at - 3) : at] if token.text not in ("the", "my", "on")]
    ahead = ahead[:-1] if ahead[-1:] and ahead[-1] in ("number", *KINDS) else ahead
    return ahead[-1:] != ["not"]


def _known_name(message: Message, at: int) -> str | None:
    """A cooker already going, called by its name."""
    for name in message.context.cookers:
        words = name.lower().split()
        if (
            words
            and not words[0].isdigit()
            and (len(words[0]) > 1 or _stands_as_a_name(message, at))
            and [token.text for token in message.tokens[at : at + len(words)]] == words
        ):
            return name
    return None


def _stands_as_a_name(message: Message, at: int) -> bool:
    """Whether a single letter is a cooker's name: "A is smoking", "near A", and not "a bit"."""
    if at + 1 >= len(message.tokens):
        return True
    after = message.tokens[at + 1]
    return after.is_pause or after.named or after.lemma in SAID_OF_ONE or is_reading(after)


def _known_number(message: Message, at: int) -> str | None:
    """ "The chicken on 2", "the lid on 2": a cooker already going, by its number."""
    name = small_number(message.tokens[at])
    is_place = text_of(message.tokens, at - 1) in ("on", "in") and at > 1 and message.tokens[at - 2].named
    going = name is not None and any(same_cooker(name, known) for known in message.context.cookers)
    return name if is_place and going else None


def _is_subject(tokens: list[Token], at: int) -> bool:
    """ "the second is at 300": an ordinal that something is said of."""
    return (
        text_of(tokens, at - 1) in ("the", "", ",", ".", ";", "and", "but")
        and at + 1 < len(tokens)
        and (tokens[at + 1].lemma == "be" or is_reading(tokens[at + 1]))
    )


def is_reading(token: Token) -> bool:
    """ "Second cooker 300 F, first 225 F"."""
    quantity = token.quantity
    return bool(quantity and quantity.kind in ("number", "degrees") and quantity.value >= LEAST_READING)


def has_its_reading(message: Message, at: int) -> bool:
    """ "1 at 275 2 at 290", "2 steady": a small number with a reading, or a known one with a word on its fire."""
    tokens, name = message.tokens, small_number(message.tokens[at])
    if name is None or at + 1 >= len(tokens):
        return False
    if text_of(tokens, at + 1) in ("at", ":", "=", "reads", "on") and at + 2 < len(tokens):
        return is_reading(tokens[at + 2])
    known = any(same_cooker(name, cooker) for cooker in message.context.cookers)
    begins = text_of(tokens, at - 1) in ("", ",", ".", ";", "and", "but")
    return known and begins and any(match.start == at + 1 and match.means[0] in OF_THE_FIRE
                                    for match in message.lexicon.phrases.find(tokens))


def is_named_bare(message: Message, at: int) -> bool:
    """ "One is fine, but in two ...", "left 300": a number or a side alone, where a name may stand."""
    tokens, before = message.tokens, text_of(message.tokens, at - 1)
    if before not in ("", ",", ".", "and", "but", "in", "on", ";", "while") or at + 1 >= len(tokens):
        return False
    reads = side_at(message, at) is not None and is_reading(tokens[at + 1])
    return tokens[at + 1].lemma == "be" or before == "in" or reads


def _owner_by_number(token: Token) -> str | None:
    """ "Cooker twos lid": two's, typed without its mark."""
    return _NUMBER_WORDS.get(token.text.removesuffix("s")) if token.kind == "word" else None


def side_at(message: Message, at: int) -> str | None:
    """ "Left is at 350, right is at 240": a bare adjective as a name."""
    text = message.tokens[at].text
    return text if text in message.lexicon.data["cookers"]["adjectives"] else None


def small_number(token: Token) -> str | None:
    """A number up to 20, in digits, that may be a cooker's; None for any other token."""
    if token.text in _NUMBER_WORDS:
        return _NUMBER_WORDS[token.text]
    quantity = token.quantity
    if (
        quantity
        and quantity.kind == "number"
        and 1 <= quantity.value <= 20
        and quantity.value == int(quantity.value)
    ):
        return str(int(quantity.value))
    return None


def text_of(tokens: list[Token], at: int) -> str:
    """The text of token `at`; "" outside the message."""
    return tokens[at].text if 0 <= at < len(tokens) else ""
