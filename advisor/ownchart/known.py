"""What the logbook holds of each cooker, as profiles a conversation starts with. Quick: nothing is learned, no numpy."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from pydantic import ValidationError

from advisor.cooknames import same_cooker
from advisor.outlook.lore import LEARNED_VERSION
from advisor.profile import CookerProfile

if TYPE_CHECKING:
    from advisor.logbook.reader import Reader


def known_cookers(book: Reader, base: CookerProfile) -> dict[str, CookerProfile]:
    """Profiles by the names of cookers; "" is the one nobody names, which is the one of `base`. Quick: nothing is learned."""
    found = {cooker.name: kept_profile(cooker.profile, base_of(cooker.name, base)) for cooker in book.cookers()
             if cooker.profile}
    mine = next((profile for name, profile in found.items() if base.name and same_cooker(name, base.name)), None)
    return found | ({"": mine} if mine else {})


def finished_on(book: Reader, cooker: str) -> int:
    """Finished cooks on a cooker."""
    return sum(cook.ended_ms is not None for cook in book.cooks(cooker))


def stale(book: Reader) -> list[str]:
    """The cookers on which a cook was finished since their chart was made, such as one that was left and never called over."""
    charts = {cooker.name: kept_profile(cooker.profile).chart for cooker in book.cookers()}
    return [name for name, chart in charts.items() if finished_on(book, name) > (chart.seen if chart else 0)]


def base_of(name: str, base: CookerProfile) -> CookerProfile | None:
    """What a profile file says counts for the cooker it names; one that names none is for all."""
    return base if not base.name or name and same_cooker(name, base.name) else None


def kept_profile(data: Mapping[str, Any] | None, base: CookerProfile | None = None) -> CookerProfile:
    """A profile as the logbook holds it, under what a file says; what can't be read counts as not known."""
    try:
        kept = CookerProfile.model_validate(data or {})
    except ValidationError:
        kept = CookerProfile()
    if kept.learned is not None and kept.learned.get("version") != LEARNED_VERSION:
        kept = kept.model_copy(update={"learned": None})
    return kept if base is None else kept.model_copy(update=base.model_dump(exclude_defaults=True, exclude={"chart"})
                                                     | ({"chart": base.chart} if base.chart else {}))
