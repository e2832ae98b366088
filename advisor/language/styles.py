"""The units a message shows that its speaker uses."""

from dataclasses import replace

from advisor.language.message import Message
from advisor.units import UnitStyle


def style_of(message: Message, scale: str | None) -> UnitStyle | None:
    """The style so far with what this message shows changed; None where it shows nothing."""
    style = message.context.units or UnitStyle()
    shown: dict[str, str] = {"temperature": scale} if scale else {}
    for token in message.tokens:
        if token.quantity and token.quantity.kind == "inches" and "finger" not in token.quantity.said:
            shown["length"] = "cm" if token.quantity.metric else "in"
        elif token.quantity and token.quantity.kind == "kg":
            shown["mass"] = "kg" if token.quantity.metric else "lb"
    return replace(style, **shown) if shown else None
