"""Number tokens joined with their units: "20 min ago", "110 c", "an inch and a half", "1 degree a minute".

Each step takes the tokens and gives them back with some of them merged. Nothing here knows a fact.
"""

from dataclasses import replace

from advisor.language.tokens import Quantity, Token
from advisor.units import CM_PER_INCH, FEET_PER_METRE, KG_PER_POUND

MINUTES = {"min": 1, "mins": 1, "minute": 1, "minutes": 1, "minuets": 1, "h": 60, "hr": 60, "hrs": 60,
           "hour": 60, "hours": 60, "sec": 1 / 60, "secs": 1 / 60, "second": 1 / 60, "seconds": 1 / 60,
           "day": 1440, "days": 1440}
INCHES = {"inch": 1, "inches": 1, "inchs": 1, "cm": 1 / CM_PER_INCH, "cms": 1 / CM_PER_INCH, "centimetre": 1 / CM_PER_INCH,
          "centimetres": 1 / CM_PER_INCH, "centimeter": 1 / CM_PER_INCH, "centimeters": 1 / CM_PER_INCH,
          "mm": 0.1 / CM_PER_INCH, "millimetres": 0.1 / CM_PER_INCH, "millimeters": 0.1 / CM_PER_INCH,
          "mil": 0.1 / CM_PER_INCH, "fingers": 0.75, "finger": 0.75}  # a finger's breadth is 3/4 inch, from memory
KILOGRAMS = {"kg": 1, "kgs": 1, "kilo": 1, "kilos": 1, "kilogram": 1, "kilograms": 1, "lb": KG_PER_POUND,
             "lbs": KG_PER_POUND, "pound": KG_PER_POUND, "pounds": KG_PER_POUND, "lber": KG_PER_POUND,
             "pounder": KG_PER_POUND, "g": 0.001, "gram": 0.001, "grams": 0.001, "oz": KG_PER_POUND / 16,
             "ounce": KG_PER_POUND / 16, "ounces": KG_PER_POUND / 16}
FEET = {"yard": 3, "metre": FEET_PER_METRE, "meter": FEET_PER_METRE, "ft": 1, "feet": 1, "foot": 1, "metres": FEET_PER_METRE, "meters": FEET_PER_METRE}
METRIC = {"kg", "kgs", "kilo", "kilos", "kilogram", "kilograms", "g", "gram", "grams", "cm", "cms", "mm", "mil"}
CELSIUS = {"c", "celsius", "celcius", "celsuis", "centigrade", "centrigrade", "celsious"}
FAHRENHEIT = {"f", "fahrenheit", "farenheit", "fahrenheight", "farenheight", "ferenheit"}
FRACTIONS = {"half": 0.5, "third": 1 / 3, "thirds": 1 / 3, "quarter": 0.25, "quarters": 0.25, "qtr": 0.25,
             "eighth": 0.125, "tenth": 0.1, "fifth": 0.2, "quater": 0.25}
UNIT_WORDS = {*MINUTES, *INCHES, *KILOGRAMS, *FEET, *CELSIUS, *FAHRENHEIT, *FRACTIONS}
NAMED_HOURS = {"noon": 720.0, "midday": 720.0, "midnight": 0.0}
PLURALS = {"quarters", "thirds"}  # "chicken quarters"
VAGUE = {"couple": 2, "few": 3, "several": 4}
A_FEW_OF = ("of",)
NOT_AFTER_INCHES = {"the", "a", "my", "this", "an", "here", "there", "it", "dome", "about", "total", "half", "that"}


def join_quantities(tokens: list[Token]) -> list[Token]:
    """The tokens with figures and their units merged."""
    for step in (_join_fractions, _join_mixed, _join_vague, _join_ranges, _join_units, _join_hours_and_minutes,
                 _join_clock, _join_rates, _join_ago):
        tokens = step(tokens)
    return tokens


def text_at(tokens: list[Token], at: int) -> str:
    return tokens[at].text if 0 <= at < len(tokens) else ""


def kind_at(tokens: list[Token], at: int) -> str:
    found = tokens[at].quantity if 0 <= at < len(tokens) else None
    return found.kind if found else ""


def merged(tokens: list[Token], start: int, end: int, **changes: object) -> Token:
    """tokens[start:end] as one token; its quantity is the first one in there, with `changes`."""
    said = " ".join(token.text for token in tokens[start:end])
    base = next((token.quantity for token in tokens[start:end] if token.quantity), Quantity("number", 0.0))
    return Token(said, "number", glued=tokens[start].glued, quantity=replace(base, said=said, **changes))


def _rewrite(tokens: list[Token], rule) -> list[Token]:
    """Tokens with `rule(tokens, at) -> (token, end) | None` applied from left to right."""
    out: list[Token] = []
    at = 0
    while at < len(tokens):
        result = rule(tokens, at)
        token, at = result if result else (tokens[at], at + 1)
        out.append(token)
    return out


def _join_fractions(tokens: list[Token]) -> list[Token]:
    return _rewrite(tokens, _fraction)


def _fraction(tokens: list[Token], at: int) -> tuple[Token, int] | None:
    if kind_at(tokens, at) == "number" and text_at(tokens, at + 1) == "/" and kind_at(tokens, at + 2) == "number":
        top, bottom = tokens[at].quantity.value, tokens[at + 2].quantity.value
        if top + bottom == 100:  # lean to fat, as the butcher writes it
            return merged(tokens, at, at + 3, kind="fraction", value=bottom / 100), at + 3
        if 0 < top < bottom <= 16:
            return merged(tokens, at, at + 3, kind="fraction", value=top / bottom), at + 3
    if kind_at(tokens, at) == "number" and text_at(tokens, at + 1) in ("%", "percent", "pct"):
        return merged(tokens, at, at + 2, kind="fraction", value=tokens[at].quantity.value / 100), at + 2
    if kind_at(tokens, at) == "number" and tokens[at].quantity.value in (1, 2, 3):
        after = at + 2 if text_at(tokens, at + 1) == "-" else at + 1
        part = FRACTIONS.get(text_at(tokens, after))
        if part and text_at(tokens, after) != "half" and part * tokens[at].quantity.value < 1:
            return merged(tokens, at, after + 1, kind="fraction", value=part * tokens[at].quantity.value), after + 1
    if tokens[at].kind == "word" and text_at(tokens, at) in FRACTIONS and text_at(tokens, at) not in PLURALS:
        return merged(tokens, at, at + 1, kind="fraction", value=FRACTIONS[text_at(tokens, at)]), at + 1
    return None


def _join_vague(tokens: list[Token]) -> list[Token]:
    return _rewrite(tokens, _vague)


def _vague(tokens: list[Token], at: int) -> tuple[Token, int] | None:
    """"a couple of hours", "an hour", "half an inch" begin with a number like any other."""
    word = text_at(tokens, at)
    if kind_at(tokens, at) == "fraction" and word not in ("third", "second"):
        unit_at = at + 1
        while text_at(tokens, unit_at) in ("an", "a", "of"):
            unit_at += 1
        if _is_unit(text_at(tokens, unit_at)) and unit_at - at <= 3:
            return merged(tokens, at, unit_at, kind="number"), unit_at
    if word in ("a", "an", "last", "past"):
        if text_at(tokens, at + 1) in VAGUE:
            return _vague(tokens, at + 1)
        if _is_unit(text_at(tokens, at + 1)) and text_at(tokens, at + 1) not in ("g", "c", "f", "second", "day"):
            return merged(tokens, at, at + 1, kind="number", value=1.0), at + 1
        if kind_at(tokens, at + 1) == "fraction" and _is_unit(text_at(tokens, at + 2)):
            return merged(tokens, at, at + 2, kind="number"), at + 2
        if word in ("a", "an") and text_at(tokens, at + 1) in ("degree", "deg"):
            return merged(tokens, at, at + 1, kind="number", value=1.0), at + 1
    if word in VAGUE:
        end = at + 2 if text_at(tokens, at + 1) == "of" else at + 1
        if _is_unit(text_at(tokens, end)):
            return merged(tokens, at, end, kind="number", value=float(VAGUE[word])), end
    return None


def _is_unit(word: str) -> bool:
    return word in MINUTES or word in INCHES or word in KILOGRAMS or word in FEET


def _join_mixed(tokens: list[Token]) -> list[Token]:
    return _rewrite(tokens, _mixed)


def _mixed(tokens: list[Token], at: int) -> tuple[Token, int] | None:
    """"1 1/2", "two and a half", "an inch and a half", "hour and a quarter"."""
    if kind_at(tokens, at) == "number":
        whole, unit_at = tokens[at].quantity.value, at + 1
    elif text_at(tokens, at) in ("hour", "inch"):
        whole, unit_at = 1.0, at
    else:
        return None
    has_unit = _is_unit(text_at(tokens, unit_at))
    and_at = unit_at + 1 if has_unit else unit_at
    part_at = and_at
    if text_at(tokens, and_at) == "and":
        part_at = and_at + 2 if text_at(tokens, and_at + 1) in ("a", "an") else and_at + 1
    elif has_unit:
        return None
    if kind_at(tokens, part_at) != "fraction" or whole > 24 or (text_at(tokens, part_at).endswith("%")):
        return None
    if not has_unit and not _is_unit(text_at(tokens, part_at + 1)):
        return None
    value = whole + tokens[part_at].quantity.value
    if not has_unit:
        return merged(tokens, at, part_at + 1, kind="number", value=value), part_at + 1
    token = Token(f"{value:g} {text_at(tokens, unit_at)}", "number", quantity=Quantity("number", value))
    return _with_unit(token, text_at(tokens, unit_at)), part_at + 1


def _join_ranges(tokens: list[Token]) -> list[Token]:
    return _rewrite(tokens, _range)


def _range(tokens: list[Token], at: int) -> tuple[Token, int] | None:
    """"between 380 and 400", "380-400", "380 to 400", "two or three" become their middle."""
    start = at
    between = text_at(tokens, at) == "between"
    if between:
        at += 1
    if kind_at(tokens, at) != "number":
        return None
    link_at = at + 1
    while text_at(tokens, link_at) in ("degrees", "deg", "°", *CELSIUS, *FAHRENHEIT) and link_at < at + 3:
        link_at += 1
    link = text_at(tokens, link_at)
    low, high = tokens[at].quantity.value, kind_at(tokens, link_at + 1) == "number" and tokens[link_at + 1].quantity.value
    if not high or high <= low or high > 3 * low and not between:
        return None
    if not (between and link in ("and", "to", "-") or link in ("or", "to", "-") and text_at(tokens, at - 1) != "from"):
        return None
    if link == "to" and not between and high - low > 60:
        return None  # "went 250 to 350" is a movement
    unit = next((text_at(tokens, i) for i in range(at + 1, link_at) if text_at(tokens, i) in CELSIUS | FAHRENHEIT), "")
    return merged(tokens, start, link_at + 2, value=(low + high) / 2, span=(low, high), unit=_scale(unit)), link_at + 2


def _scale(word: str) -> str | None:
    return "C" if word in CELSIUS else "F" if word in FAHRENHEIT else None


def _join_units(tokens: list[Token]) -> list[Token]:
    return _rewrite(tokens, _unit)


def _unit(tokens: list[Token], at: int) -> tuple[Token, int] | None:
    sign, number_at = _sign(tokens, at)
    if kind_at(tokens, number_at) not in ("number", "fraction"):
        return None
    token = tokens[number_at]
    signed = replace(token.quantity, value=sign * token.quantity.value)
    token = Token(token.text if sign > 0 else f"-{token.text}", "number", glued=token.glued, quantity=signed)
    end = number_at + 1
    if text_at(tokens, end) == "-" and tokens[end].glued and _is_unit(text_at(tokens, end + 1)):
        end += 1
    degrees = _degrees(tokens, token, end)
    if degrees:
        return degrees
    word = text_at(tokens, end)
    if word == '"' or (word == "in" and _in_is_inches(tokens, end, token.quantity.value)):
        return _with_unit(token, "inch"), end + 1
    if word == "m" and tokens[end].glued:
        return _with_unit(token, "min"), end + 1
    if word in MINUTES or word in INCHES or word in KILOGRAMS or word in FEET:
        if word in ("g", "h") and not tokens[end].glued and token.quantity.value < 20 and word == "g":
            return None
        return _with_unit(token, word), end + 1
    return (token, end) if number_at > at else None


def _sign(tokens: list[Token], at: int) -> tuple[int, int]:
    word = text_at(tokens, at)
    if word == "minus" or (word == "-" and at + 1 < len(tokens) and tokens[at + 1].glued
                           and not (tokens[at].glued and at > 0)):
        return -1, at + 1
    if word in ("plus", "+"):
        return 1, at + 1
    return 1, at


def _degrees(tokens: list[Token], token: Token, at: int) -> tuple[Token, int] | None:
    end = at
    while text_at(tokens, end) in ("°", "degrees", "degree", "deg", "degs", "degress", "dergees", "ish", "'"):
        end += 1
    scale = _scale(text_at(tokens, end))
    if scale and text_at(tokens, end) in ("c", "f") and text_at(tokens, end + 1) == "'":
        scale = None
    if scale is None and end == at:
        return None
    if scale:
        end += 1
    if scale is None and all(text_at(tokens, i) in ("ish", "'") for i in range(at, end)):
        return token, end
    quantity = replace(token.quantity, kind="degrees", unit=scale or token.quantity.unit)
    return Token(token.text, "number", glued=token.glued, quantity=quantity), end


def _in_is_inches(tokens: list[Token], at: int, value: float) -> bool:
    return value <= 8 and (tokens[at].glued or text_at(tokens, at + 1) not in NOT_AFTER_INCHES) and not (
        at + 1 < len(tokens) and tokens[at + 1].kind == "number")


def _with_unit(token: Token, unit: str) -> Token:
    for kind, table in (("minutes", MINUTES), ("inches", INCHES), ("kg", KILOGRAMS), ("feet", FEET)):
        if unit in table:
            quantity = replace(token.quantity, kind=kind, value=token.quantity.value * table[unit],
                               metric=unit in METRIC or "met" in unit, said=f"{token.text} {unit}")
            return Token(quantity.said, "number", glued=token.glued, quantity=quantity)
    return token


def _join_hours_and_minutes(tokens: list[Token]) -> list[Token]:
    return _rewrite(tokens, _hours_and_minutes)


def _hours_and_minutes(tokens: list[Token], at: int) -> tuple[Token, int] | None:
    if kind_at(tokens, at) != "minutes" or tokens[at].quantity.value < 60:
        return None
    next_at = at + 2 if text_at(tokens, at + 1) == "and" else at + 1
    kind = kind_at(tokens, next_at)
    glued = next_at < len(tokens) and tokens[next_at].glued
    minutes_only = kind == "number" and next_at == at + 2 and 5 <= tokens[next_at].quantity.value < 60
    if kind == "minutes" and tokens[next_at].quantity.value < 60 or kind == "number" and glued or minutes_only:
        value = tokens[at].quantity.value + tokens[next_at].quantity.value
        return merged(tokens, at, next_at + 1, value=value), next_at + 1
    return None


def _join_clock(tokens: list[Token]) -> list[Token]:
    return _rewrite(tokens, _clock)


def _clock(tokens: list[Token], at: int) -> tuple[Token, int] | None:
    kind, word = kind_at(tokens, at), text_at(tokens, at)
    if word in NAMED_HOURS:
        return merged(tokens, at, at + 1, kind="clock", value=NAMED_HOURS[word]), at + 1
    shift = {"half": 30, "quarter": 15}.get(word) if kind == "fraction" else None
    link = {"after": "past"}.get(text_at(tokens, at + 1), text_at(tokens, at + 1))
    if (shift or kind in ("number", "minutes")) and link in ("past", "to", "till", "til") \
            and kind_at(tokens, at + 2) == "number" and tokens[at + 2].quantity.value in range(1, 13):
        minutes = shift or tokens[at].quantity.value
        if minutes >= 60 or not (shift or kind == "minutes" or tokens[at].quantity.spoken or link == "past"):
            return None
        hour = tokens[at + 2].quantity.value * 60
        value = hour + minutes if link == "past" else hour - minutes
        return _am_pm(tokens, at, at + 3, value % 1440)
    if word == "half" and text_at(tokens, at - 1) in ("at", "by", "till", "around", "about", "since", "is", "for") \
            and kind_at(tokens, at + 1) == "number" and tokens[at + 1].quantity.value in range(1, 13) \
            and text_at(tokens, at + 2) not in ("inch", "inches"):
        return merged(tokens, at, at + 2, kind="clock", value=tokens[at + 1].quantity.value * 60 + 30, half_day=True), at + 2
    if kind == "number" and tokens[at].quantity.value == int(tokens[at].quantity.value) and 0 < tokens[at].quantity.value <= 12:
        if link in ("am", "pm", "o", "oclock") and (link != "o" or text_at(tokens, at + 2) in ("clock", "'")):
            return _am_pm(tokens, at, at + 1, tokens[at].quantity.value * 60)
    if kind == "clock":
        return _am_pm(tokens, at, at + 1, tokens[at].quantity.value)
    return None


def _am_pm(tokens: list[Token], start: int, end: int, value: float) -> tuple[Token, int]:
    """The clock token, minute of day; half_day where morning or evening is not said."""
    half_day = value < 780
    while text_at(tokens, end) in ("o", "clock", "oclock", "'"):
        end += 1
    word = text_at(tokens, end)
    if word in ("am", "pm"):
        end, half_day = end + 1, False
        value = value % 720 + (720 if word == "pm" else 0)
    return merged(tokens, start, end, kind="clock", value=value, half_day=half_day), end


def _join_rates(tokens: list[Token]) -> list[Token]:
    return _rewrite(tokens, _rate)


def _rate(tokens: list[Token], at: int) -> tuple[Token, int] | None:
    """"1 degree a minute", "5 per min", "20 degrees every 5 minutes", "60 an hour"."""
    if kind_at(tokens, at) not in ("number", "degrees"):
        return None
    if text_at(tokens, at + 1) in ("a", "per", "/", "each", "every", "an"):
        time_at = at + 2
    elif kind_at(tokens, at + 1) == "minutes" and text_at(tokens, at + 1).startswith(("a ", "an ")):
        time_at = at + 1
    else:
        return None
    unit = MINUTES.get(text_at(tokens, time_at))
    if unit is None and kind_at(tokens, time_at) == "minutes":
        unit = tokens[time_at].quantity.value
    if not unit or unit > 60 or tokens[at].quantity.value > 200:
        return None
    return merged(tokens, at, time_at + 1, kind="rate", value=tokens[at].quantity.value / unit), time_at + 1


def _join_ago(tokens: list[Token]) -> list[Token]:
    return _rewrite(tokens, _ago)


def _ago(tokens: list[Token], at: int) -> tuple[Token, int] | None:
    if kind_at(tokens, at) == "number" and text_at(tokens, at + 1) == "ago":
        return merged(tokens, at, at + 2, kind="ago"), at + 2
    if kind_at(tokens, at) != "minutes":
        return None
    end = at + 1
    while text_at(tokens, end) in ("or", "so", "ish", "about", "maybe"):
        end += 1
    if text_at(tokens, end) in ("ago", "back", "earlier", "previous"):
        return merged(tokens, at, end + 1, kind="ago"), end + 1
    return None
