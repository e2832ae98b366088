"""A temperature or difference that the words give to a fact, before its scale is settled."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Claim:
    """value: in the scale it was said in; unit: "F", "C" or None; at: index of its token; said: its words.

    is_difference: no zero point, so a Celsius one is times 9/5 alone. before: it held earlier
    and no longer does. wide: a range. moves: the first figure of "from 240 to 330".
    """

    fact: str
    value: float
    unit: str | None
    at: int
    said: str
    is_difference: bool = False
    before: bool = False
    wide: bool = False
    moves: bool = False
