"""One fact about a cook: a name, a value, where it came from and when. Frozen: changing is replacing."""

from dataclasses import dataclass
from typing import Literal

Value = float | bool | str
Origin = Literal["said", "measured", "derived", "assumed", "learned", "forecast"]


@dataclass(frozen=True, slots=True)
class Fact:
    """name: a key of the vocabulary; at_min: the clock when it was so (minutes); since_min: told the same since then."""

    name: str
    value: Value
    origin: Origin
    at_min: float = 0.0
    since_min: float | None = None

    def __str__(self) -> str:
        value = f"{self.value:g}" if isinstance(self.value, float) else str(self.value).lower()
        return f"{self.name} = {value} ({self.origin})"
