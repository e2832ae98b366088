"""Numbers as they are spoken: "three fifty", "a hundred and twenty", "ninety four", "half past six".

Only English number grammar is in here; what a number means is settled later.
"""

from advisor.language.tokens import Quantity, Token

ONES = {
    word: n
    for n, word in enumerate(
        [
            "zero",
            "one",
            "two",
            "three",
            "four",
            "five",
            "six",
            "seven",
            "eight",
            "nine",
            "ten",
            "eleven",
            "twelve",
            "thirteen",
            "fourteen",
            "fifteen",
            "sixteen",
            "seventeen",
            "eighteen",
            "nineteen",
        ]
    )
}
TENS = {
    word: n * 10
    for n, word in enumerate(
        ["twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"], start=2
    )
} | {"fourty": 40, "fivty": 50}
NUMBER_WORDS = {*ONES, *TENS, "hundred", "thousand", "couple", "point"}
MISHEARD = {"tow": 2, "too": 2, "won": 1, "fore": 4}  # by dictation: "tow fifty"
AFTER_ONE = {
    "degree",
    "degrees",
    "hour",
    "inch",
    "minute",
    "third",
    "quarter",
    "half",
    "kilo",
    "kg",
    "pound",
    "day",
    "point",
    "c",
    "f",
    "and",
    "or",
    "finger",
    "min",
    "hr",
    "eighth",
    "tenth",
    "part",
    "every",
    "o",
    "oclock",
}
BEFORE_HALF_ONE = ("at", "now", "by", "since", "till", "around", "about")
COUNTED = {"degree", "degrees", "deg", "hour", "hours", "hrs", "minute", "minutes", "mins", "inch", "inches", "kilos", "kg", "pounds", "lbs", "fingers"}
_AFTER_HUNDRED = ("and", "hundred")


def join_spoken(tokens: list[Token]) -> list[Token]:
    """The tokens with every spoken number made one number token."""
    out: list[Token] = []
    at = 0
    while at < len(tokens):
        value, end = _number(tokens, at)
        if value is None or (end == at + 1 and tokens[at].text == "one" and not _counts(tokens, at)):
            out.append(tokens[at])
            at += 1
            continue
        said = " ".join(token.text for token in tokens[at:end])
        out.append(
            Token(
                said,
                "number",
                glued=tokens[at].glued,
                quantity=Quantity("number", float(value), said=said, spoken=True),
            )
        )
        at = end
    return out


def _counts(tokens: list[Token], at: int) -> bool:
    """Whether a lone "one" is a number and no "the open one"."""
    return (
        _word(tokens, at + 1) in AFTER_ONE
        or _word(tokens, at - 1) in ("number", "step", "past", "to", "at", "till")
        or (_word(tokens, at - 1) == "half" and _word(tokens, at - 2) in BEFORE_HALF_ONE)
        or (at + 1 < len(tokens) and tokens[at + 1].text in ("/", "-"))
    )


def _word(tokens: list[Token], at: int) -> str:
    return tokens[at].text if at < len(tokens) and tokens[at].kind == "word" else ""


def _skip_hyphen(tokens: list[Token], at: int) -> int:
    joined = (
        at + 1 < len(tokens) and tokens[at].text == "-" and tokens[at].glued and tokens[at + 1].kind == "word"
    )
    return at + 1 if joined else at


def _number(tokens: list[Token], at: int) -> tuple[float | None, int]:
    """(value, end) of the spoken number that begins at `at`; (None, at) where there is none."""
    if tokens[at].quantity and _word(tokens, at + 1) == "hundred" and 1 <= tokens[at].quantity.value <= 9:
        return _digits_hundred(tokens, at)
    if tokens[at].kind == "number" and tokens[at].quantity.value in range(1, 8) and _word(tokens, at + 1) in TENS:
        return _digit_then(tokens, int(tokens[at].quantity.value), at + 1)
    if _word(tokens, at) == "point" and _word(tokens, at + 1) in ONES:
        return ONES[_word(tokens, at + 1)] / 10, at + 2
    misheard = MISHEARD.get(_word(tokens, at))
    if misheard and (_word(tokens, at + 1) in TENS or _word(tokens, at + 1) == "hundred"):
        return (
            _digit_then(tokens, misheard, at + 1)
            if _word(tokens, at + 1) in TENS
            else _hundreds(tokens, misheard, at + 2)
        )
    first, after = _below_hundred(tokens, at)
    if first is None:
        if _word(tokens, at) == "a" and _word(tokens, at + 1) == "hundred":
            return _hundreds(tokens, 1, at + 2)
        if _word(tokens, at) == "couple" and _word(tokens, at + 1) == "hundred":
            return 200, at + 2
        if _word(tokens, at) == "couple" and _word(tokens, at + 1) == "of" and _word(tokens, at + 2) in COUNTED:
            return 2, at + 2
        if _word(tokens, at) == "a" and _word(tokens, at + 1) == "dozen":
            return 12, at + 2
        if _word(tokens, at) == "hundred":
            return _hundreds(tokens, 1, at + 1)
        return None, at
    if _word(tokens, after) == "hundred":
        return _hundreds(tokens, first, after + 1)
    if _word(tokens, after) == "point":
        tenths, end = _below_hundred(tokens, after + 1)
        if tenths is not None and tenths < 10:
            return first + tenths / 10, end
    if _word(tokens, after) == "thousand":
        return first * 1000, after + 1
    if 1 <= first <= 9:
        return _digit_then(tokens, first, after)
    return first, after


def _digits_hundred(tokens: list[Token], at: int) -> tuple[float, int]:
    """ "3 hundred 50", "3 hundred and fifty"."""
    hundreds = int(tokens[at].quantity.value)
    rest_at = at + 3 if _word(tokens, at + 2) == "and" else at + 2
    rest = tokens[rest_at].quantity if rest_at < len(tokens) else None
    if rest and rest.kind == "number" and 10 <= rest.value < 100:
        return hundreds * 100 + rest.value, rest_at + 1
    return _hundreds(tokens, hundreds, at + 2)


def _hundreds(tokens: list[Token], hundreds: int, at: int) -> tuple[int, int]:
    rest_at = at + 1 if _word(tokens, at) == "and" else at
    rest, end = _below_hundred(tokens, rest_at)
    if rest is None or (_word(tokens, at) == "and" and _word(tokens, rest_at) in ("a", "half")):
        return hundreds * 100, at
    return hundreds * 100 + rest, end


def _digit_then(tokens: list[Token], digit: int, at: int) -> tuple[int, int]:
    """ "three" + "fifty" = 350, "two" + "oh" + "five" = 205, "two" alone = 2."""
    at = _skip_hyphen(tokens, at)
    if _word(tokens, at) in ("oh", "o") and _word(tokens, at + 1) in ONES:
        return digit * 100 + ONES[_word(tokens, at + 1)], at + 2
    rest, end = _below_hundred(tokens, at)
    if rest is not None and rest >= 10 and _word(tokens, end) not in _AFTER_HUNDRED[1:]:
        return digit * 100 + rest, end
    return digit, at


def _below_hundred(tokens: list[Token], at: int) -> tuple[int | None, int]:
    word = _word(tokens, at)
    if word == "zero" and _word(tokens, at + 1) not in ("degrees", "c", "celsius", "f", "fahrenheit"):
        return None, at
    if word in ONES:
        return ONES[word], at + 1
    if word not in TENS:
        return None, at
    unit_at = _skip_hyphen(tokens, at + 1)
    unit = ONES.get(_word(tokens, unit_at), 0)
    if 1 <= unit <= 9:
        return TENS[word] + unit, unit_at + 1
    return TENS[word], at + 1
