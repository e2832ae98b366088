"""The units a message shows that its speaker uses."""

import itertools
from dataclasses import replace

from advisor.language.message import Message
from advisor.units import UnitStyle

ASKING = {"in", "use", "to", "using"}  # words before a unit that is wished for
UNITS = {
    "celsius": ("temperature", "C"),
    "centigrade": ("temperature", "C"),
    "fahrenheit": ("temperature", "F"),
    "inches": ("length", "in"),
    "cm": ("length", "cm"),
    "centimetres": ("length", "cm"),
    "centimeters": ("length", "cm"),
    "kilos": ("mass", "kg"),
    "kg": ("mass", "kg"),
    "pounds": ("mass", "lb"),
}


def _asked_for(message: Message) -> dict[str, str]:
    """ "In celsius please", "use inches"."""
    return dict(
        UNITS[token.text]
        for before, token in itertools.pairwise(message.tokens)
        if token.text in UNITS and before.text in ASKING
    )


def style_of(message: Message, scale: str | None) -> UnitStyle | None:
    """The style so far with what this message shows changed; None where it shows nothing."""
    style = message.context.units or UnitStyle()
    shown: dict[str, str] = {"temperature": scale} if scale else {}
    shown |= _asked_for(message)
    for token in message.tokens:
        if token.quantity and token.quantity.kind == "inches" and "finger" not in token.quantity.said:
            shown["length"] = "cm" if token.quantity.metric else "in"
        elif token.quantity and token.quantity.kind == "kg":
            shown["mass"] = "kg" if token.quantity.metric else "lb"
    return replace(style, **shown) if shown else None
