"""The words of units and shares, and what one of each is in the unit that the vocabulary keeps.

Exact factors come from advisor/units.py; the breadths of a finger (3/4 inch),
the little one (1/2) and a thumb (1) are from memory.
"""

from advisor.units import CM_PER_INCH, FEET_PER_METRE, KG_PER_POUND

MINUTES = {
    "min": 1,
    "mins": 1,
    "minute": 1,
    "minutes": 1,
    "minuets": 1,
    "h": 60,
    "hr": 60,
    "hrs": 60,
    "hour": 60,
    "hours": 60,
    "sec": 1 / 60,
    "secs": 1 / 60,
    "second": 1 / 60,
    "seconds": 1 / 60,
    "day": 1440,
    "days": 1440,
}
INCHES = {
    "inch": 1,
    "inches": 1,
    "inchs": 1,
    "cm": 1 / CM_PER_INCH,
    "cms": 1 / CM_PER_INCH,
    "centimetre": 1 / CM_PER_INCH,
    "centimetres": 1 / CM_PER_INCH,
    "centimeter": 1 / CM_PER_INCH,
    "centimeters": 1 / CM_PER_INCH,
    "mm": 0.1 / CM_PER_INCH,
    "millimetres": 0.1 / CM_PER_INCH,
    "millimeters": 0.1 / CM_PER_INCH,
    "mil": 0.1 / CM_PER_INCH,
    "fingers": 0.75,
    "pinky": 0.5,
    "pinkie": 0.5,
    "thumb": 1,
    "thumbs": 1,
    "finger": 0.75,
}
KILOGRAMS = {
    "kg": 1,
    "kgs": 1,
    "kilo": 1,
    "kilos": 1,
    "kilogram": 1,
    "kilograms": 1,
    "lb": KG_PER_POUND,
    "lbs": KG_PER_POUND,
    "pound": KG_PER_POUND,
    "pounds": KG_PER_POUND,
    "lber": KG_PER_POUND,
    "pounder": KG_PER_POUND,
    "g": 0.001,
    "gram": 0.001,
    "grams": 0.001,
    "oz": KG_PER_POUND / 16,
    "ounce": KG_PER_POUND / 16,
    "ounces": KG_PER_POUND / 16,
}
FEET = {
    "ft": 1,
    "feet": 1,
    "foot": 1,
    "yard": 3,
    "metre": FEET_PER_METRE,
    "meter": FEET_PER_METRE,
    "metres": FEET_PER_METRE,
    "meters": FEET_PER_METRE,
}
METRIC = {
    "kg",
    "kgs",
    "kilo",
    "kilos",
    "kilogram",
    "kilograms",
    "g",
    "gram",
    "grams",
    "cm",
    "cms",
    "mm",
    "mil",
}
CELSIUS = {"c", "celsius", "celcius", "celsuis", "centigrade", "centrigrade", "celsious"}
FAHRENHEIT = {"f", "fahrenheit", "farenheit", "fahrenheight", "farenheight", "ferenheit"}
FRACTIONS = {
    "half": 0.5,
    "third": 1 / 3,
    "thirds": 1 / 3,
    "quarter": 0.25,
    "quarters": 0.25,
    "qtr": 0.25,
    "eighth": 0.125,
    "eighths": 0.125,
    "fifths": 0.2,
    "tenths": 0.1,
    "sixth": 1 / 6,
    "tenth": 0.1,
    "fifth": 0.2,
    "quater": 0.25,
}
UNIT_WORDS = {*MINUTES, *INCHES, *KILOGRAMS, *FEET, *CELSIUS, *FAHRENHEIT, *FRACTIONS}
NAMED_HOURS = {"noon": 720.0, "midday": 720.0, "midnight": 0.0}
PLURALS = {"quarters", "thirds", "eighths", "fifths", "tenths"}  # "chicken quarters"
VAGUE = {"couple": 2, "few": 3, "several": 4}
NOT_AFTER_INCHES = {
    "the",
    "a",
    "my",
    "this",
    "an",
    "here",
    "there",
    "it",
    "dome",
    "about",
    "total",
    "half",
    "that",
}


def is_unit(word: str) -> bool:
    """Whether the word is a unit of time, length or weight."""
    return word in MINUTES or word in INCHES or word in KILOGRAMS or word in FEET


def scale(word: str) -> str | None:
    """ "C" or "F" where the word names a scale."""
    return "C" if word in CELSIUS else "F" if word in FAHRENHEIT else None
