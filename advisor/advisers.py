"""One adviser for each cooker that something is known of, and one for all others. Knows no conversation."""

from collections.abc import Mapping
from typing import Any

from advisor.advice import Adviser
from advisor.cooknames import same_cooker
from advisor.profile import CookerProfile
from advisor.rulebook.loader import Rulebook


class Advisers:
    """The way to an adviser by the cooker's name; `profile` is what is known of a cooker that has none of its own."""

    def __init__(self, rulebook: Rulebook, profile: CookerProfile, forecasts: bool) -> None:
        self.profile, self._forecasts = profile, forecasts
        self.common = Adviser(rulebook, profile, forecasts)
        self._own: dict[str, Adviser] = {}
        self._found: Mapping[str, Any] = {}  # by the physics, before this process

    def use(self, rulebook: Rulebook) -> None:
        """Go on with another rule base; raises and keeps the old one when the new one can't be made ready."""
        self.common = Adviser(rulebook, self.profile, self._forecasts)
        self._own = {name: self.common.on(own.profile) for name, own in self._own.items()}

    def know(self, profiles: Mapping[str, CookerProfile]) -> None:
        """What is known of single cookers, by name ("": the one nobody names)."""
        self._own = {name: self.common.on(profile) for name, profile in profiles.items()}
        self._own_go_on()

    def of(self, cooker: str) -> Adviser:
        named = (own for name, own in self._own.items() if name == cooker or name and cooker and same_cooker(name, cooker))
        return next(named, self.common)

    def found(self) -> dict[str, Any]:
        """What the physics found so far, as JSON data."""
        return {"all": self.common.found, "own": {name: adviser.found for name, adviser in self._own.items()}}

    def go_on(self, found: Mapping[str, Any]) -> None:
        """The physics goes on with what `found` gave; with an empty one it starts over."""
        self._found = found
        self.common.go_on(found.get("all", []))
        self._own_go_on()

    def _own_go_on(self) -> None:
        for name, adviser in self._own.items():
            if adviser is not self.common:
                adviser.go_on(self._found.get("own", {}).get(name, []))
