"""One look at a cook through the thermal model, kept until something new is known. Here numpy is first needed."""

from collections import OrderedDict
from collections.abc import Collection, Iterable, Mapping
from functools import cached_property
from typing import Any

from advisor.facts import Fact
from advisor.outlook.actions import deeds_of
from advisor.outlook.lore import learned_of
from advisor.outlook.prospect import Prospect, prospect_of
from advisor.outlook.recall import known_of
from advisor.outlook.sizing import sized
from advisor.profile import CookerProfile
from advisor.reply import StepSaid
from advisor.situation import Situation
from advisor.thermal.known import Known
from advisor.ventchart import Holding
from advisor.wording import Wording

KEPT = 8  # cooks remembered: a stand of cookers, or one and a few questions about it
HOLD = ("target_f", "bottom", "likely", "low", "high", "held_share")  # what thermal.hold finds, in its order
Held = list[list[Any]]  # what an opening rests on, and its figures


class View:
    """A cook as the model sees it. The ensemble is made when first asked for."""

    def __init__(self, known: Known, learned: Any, holds: dict) -> None:
        self.known, self.learned, self._holds = known, learned, holds

    @cached_property
    def ensemble(self):
        from advisor.thermal.ensemble import gather

        return gather(self.known, learned=self.learned)

    def sized(self, kinds: Collection[str], situation: Situation, facts: Mapping[str, Fact], chart: Holding,
              now: float) -> dict[str, Fact]:
        """What procedures of these kinds are sized by, with the model heard."""
        origin = "learned" if self.learned is not None or chart.cooks else "forecast"
        return sized(kinds, situation, facts, chart, self._hold(), self.ensemble, origin, now)

    def _hold(self):
        """The opening that holds the target; found anew only when what it rests on has changed."""
        known = self.known
        key = (known.target_f, known.soaked, known.windy, known.gasket_leaks, known.fuel_share, known.ash_heavy,
               known.food_on, len(known.moves), known.readings[0].dome_f)
        if key not in self._holds:
            from advisor.thermal.hold import hold_opening

            if len(self._holds) > KEPT:
                self._holds.clear()
            self._holds[key] = hold_opening(self.ensemble)
        return self._holds[key]

    def prospect(self, steps: Iterable[StepSaid], phrases: Mapping[str, str], wording: Wording) -> Prospect:
        """What comes of following `steps`; empty when they do what the model does not play."""
        deeds = deeds_of(steps, self.known.target_f)
        if deeds is None:
            return Prospect(None)
        from advisor.thermal.forecast import followed

        return prospect_of(self.known.now_f, *followed(self.ensemble, deeds), phrases, wording)


class Outlook:
    """Views of the cooks on one kind of cooker."""

    def __init__(self, profile: CookerProfile) -> None:
        self._profile = profile
        self._learned = learned_of(profile)
        self._holds: dict = {}
        self._views: OrderedDict[Known, View] = OrderedDict()

    @property
    def holds(self) -> list[Held]:
        """The openings found so far, as plain data: a later process finds slightly others from later readings."""
        return [[list(key), [getattr(hold, part) for part in HOLD]] for key, hold in self._holds.items()]

    def go_on(self, holds: Iterable[Held]) -> None:
        """Take the openings that were found before for those to be used, and no others."""
        from advisor.thermal.hold import Hold

        self._holds.clear()
        self._holds.update({tuple(key): Hold(*found) for key, found in holds if len(found) == len(HOLD)})

    def on(self, situation: Situation, facts: Mapping[str, Fact], now: float) -> View | None:
        """The view of one cook; None when it is none to forecast."""
        known = known_of(situation, facts, self._profile, now)
        if known is None:
            return None
        view = self._views.setdefault(known, View(known, self._learned, self._holds))
        self._views.move_to_end(known)
        if len(self._views) > KEPT:
            self._views.popitem(last=False)
        return view
