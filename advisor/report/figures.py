"""All figures of a cook under their names, each in one unit; what is not known has no entry. The lessons build on them."""

from collections.abc import Mapping
from typing import Literal

from advisor.report import curve, hands
from advisor.report.curve import Span
from advisor.report.fuel import FuelUsed, fuel_used
from advisor.report.stalling import stall
from advisor.report.story import CookStory, Points

Kind = Literal["moment", "minutes", "temperature", "difference", "count", "share", "mass", "opening", "yes"]
Figures = Mapping[str, float | bool]

# name: (kind, what it is). A moment is a minute of the cook; every name may stand in rules/lessons.yaml.
FIGURES: dict[str, tuple[Kind, str]] = {
    "length_min": ("minutes", "from the start to the end as told or last heard of"),
    "cooking_min": ("minutes", "to the moment both vents were shut for good, otherwise to the end"),
    "readings": ("count", "readings of the dome"),
    "longest_gap_min": ("minutes", "longest time between two readings of the dome"),
    "longest_gap_at": ("moment", "when that began"),
    "target_f": ("temperature", "the target"),
    "reached_at": ("moment", "first within the band of the target"),
    "reached_in": ("minutes", "from the start to that"),
    "in_band_share": ("share", "of the known time since then, within the band"),
    "longest_in_band_min": ("minutes", "longest time within the band without a break"),
    "longest_in_band_at": ("moment", "when that began"),
    "over_f": ("difference", "highest above the target"),
    "over_at": ("moment", "when that was"),
    "under_f": ("difference", "lowest below the target after it had been reached"),
    "under_at": ("moment", "when that was"),
    "swings": ("count", "times the dome went from one side of the band right over to the other"),
    "visits": ("count", "visits to the vents, moves within a minute and a half together"),
    "moves": ("count", "single vent moves"),
    "visits_an_hour": ("count", "visits to the vents in an hour of cooking"),
    "close_visits": ("count", "visits less than five minutes after the one before"),
    "close_visits_at": ("moment", "the first of them"),
    "pushed_across": ("count", "those after which the dome crossed the target and left the band on the other side"),
    "wide_near_target_min": ("minutes", "top vent half open or more close below the target, in the time before the peak"),
    "wide_near_target_at": ("moment", "when that began"),
    "wide_near_target_f": ("temperature", "the dome then"),
    "untouched_in_band_min": ("minutes", "longest time within the band without a visit to the vents"),
    "untouched_in_band_at": ("moment", "when that began"),
    "choked_min": ("minutes", "longest time with both vents shut while cooking"),
    "choked_at": ("moment", "when that began"),
    "put_out_at": ("moment", "both vents shut for good"),
    "lids": ("count", "times the lid was lifted, burps left out"),
    "lids_an_hour": ("count", "the same in an hour of cooking"),
    "burps": ("count", "burps of the lid"),
    "lid_up_min": ("minutes", "the lid stood open in all"),
    "dip_f": ("difference", "deepest fall of the dome in the ten minutes after the lid was lifted"),
    "dip_at": ("moment", "when the lid was lifted then"),
    "chased_lids": ("count", "times the vents were moved within ten minutes after the lid was lifted"),
    "chased_lids_at": ("moment", "the first of them"),
    "steps_done": ("count", "steps of the advice done, as reported or taken for granted"),
    "advised": ("count", "times advice with steps was given"),
    "food_on_at": ("moment", "the food went on"),
    "food_before_target_min": ("minutes", "from the food going on to the dome reaching the band"),
    "steady_before_food_min": ("minutes", "from the dome reaching the band to the food going on"),
    "core_first_f": ("temperature", "first reading of the core"),
    "core_highest_f": ("temperature", "highest reading of the core"),
    "core_highest_at": ("moment", "when that was"),
    "stall_min": ("minutes", "the core kept within six degrees"),
    "stall_at": ("moment", "when that began"),
    "stall_f": ("temperature", "the core then"),
    "visits_in_stall": ("count", "visits to the vents during the stall"),
    "food_off_at": ("moment", "the food came off"),
    "rested_min": ("minutes", "it rested"),
    "fuel_share": ("share", "of a full basket, as told"),
    "fuel_kg": ("mass", "charcoal used, as told or worked out"),
    "fuel_low_kg": ("mass", "four times out of five at least this"),
    "fuel_high_kg": ("mass", "and at most this"),
    "fuel_estimated": ("yes", "the model worked it out"),
    "fuel_left_share": ("share", "the last level told"),
}


def figures_of(story: CookStory) -> Figures:
    """The figures of one cook."""
    end = story.length_min
    put_out = hands.put_out_min(story.moves, end)
    cooking = end if put_out is None else put_out
    points = curve.up_to(story.dome, cooking)
    found: dict[str, float | bool | None] = {"length_min": end, "cooking_min": cooking, "put_out_at": put_out,
                                             "readings": len(story.dome), "target_f": story.target_f}
    found |= _spanned("longest_gap", curve.longest_gap(points))
    found |= _held(story, story.target_f, points) if story.target_f is not None else {}
    found |= _handled(story, cooking) | _lids(story, points, cooking) | _fed(story, found.get("reached_at"))
    found |= _fuel(fuel_used(story, points), story)
    return {name: value for name, value in found.items() if value is not None}


def _held(story: CookStory, target_f: float, points: Points) -> dict[str, float | None]:
    """What hangs on the target."""
    visits = hands.occasions(hands.made(story.moves))
    over, arrived = curve.worst_over(points, target_f), curve.arrived_min(points, target_f)
    under = None if arrived is None else curve.worst_under(curve.since(points, arrived), target_f)
    found = {"reached_at": curve.reached_min(points, target_f), "swings": curve.swings(points, target_f),
             "pushed_across": len(hands.pushed_across(hands.too_close(visits), points, target_f)),
             "under_f": under and under[1], "under_at": under and under[0]}
    if found["reached_at"] is not None:
        found |= {"reached_in": found["reached_at"]} | _in_band(curve.since(points, found["reached_at"]), target_f, visits)
    return found | (_overshot(story, points, target_f, over) if over else {})


def _in_band(points: Points, target_f: float, visits: list[float]) -> dict[str, float | None]:
    """What the curve did once it had got into the band."""
    spans = curve.spans_between(points, *curve.band(target_f))
    return ({"in_band_share": curve.share_in_band(points, target_f)} | _spanned("longest_in_band", curve.longest(spans))
            | _spanned("untouched_in_band", hands.untouched(spans, visits)))


def _overshot(story: CookStory, points: Points, target_f: float, over: tuple[float, float]) -> dict[str, float | None]:
    """The peak and the wide vents before it."""
    found: dict[str, float | None] = {"over_at": over[0], "over_f": over[1]}
    wide = hands.wide_near_target(story.moves, points, target_f, over[0])
    if wide:
        found |= {"wide_near_target_min": curve.total(wide), "wide_near_target_at": wide[0][0],
                  "wide_near_target_f": curve.value_at(points, wide[0][0])}
    return found


def _handled(story: CookStory, cooking: float) -> dict[str, float | None]:
    """What was done at the vents, and how much advice there was."""
    made = hands.made(story.moves)
    visits = [visit for visit in hands.occasions(made) if visit <= cooking]
    close = hands.too_close(visits)
    return {"moves": len(made), "visits": len(visits), "visits_an_hour": _hourly(len(visits), cooking),
            "close_visits": len(close), "close_visits_at": close[0] if close else None,
            "steps_done": len(story.deeds), "advised": sum(1 for advised in story.advice if advised.steps),
            } | _spanned("choked", curve.longest(hands.both_shut(story.moves, cooking)))


def _lids(story: CookStory, points: Points, cooking: float) -> dict[str, float | None]:
    lids = [lid for lid in story.lids if not lid.burp]
    dip, chased = hands.deepest_dip(story.lids, points), hands.chased(story.lids, hands.occasions(hands.made(story.moves)))
    return {"lids": len(lids), "burps": len(story.lids) - len(lids), "lids_an_hour": _hourly(len(lids), cooking),
            "lid_up_min": hands.lid_minutes(story.lids), "dip_at": dip and dip[0], "dip_f": dip and dip[1],
            "chased_lids": len(chased), "chased_lids_at": chased[0] if chased else None}


def _fed(story: CookStory, reached: float | None) -> dict[str, float | None]:
    """The food: on, off, its core, its stall, its rest."""
    on, off, until = story.food_on_min, story.food_off_min, story.rested_until_min
    found = {"food_on_at": on, "food_off_at": off, "rested_min": until - off if off is not None and until is not None else None}
    if on is not None and reached is not None:
        found["food_before_target_min" if on < reached else "steady_before_food_min"] = abs(reached - on)
    if story.meat:
        top = max(story.meat, key=lambda point: point[1])
        found |= {"core_first_f": story.meat[0][1], "core_highest_f": top[1], "core_highest_at": top[0]}
    flat = stall(story.meat)
    if flat:
        visits = hands.occasions(hands.made(story.moves))
        found |= _spanned("stall", flat) | {"stall_f": curve.value_at(story.meat, flat[0]),
                                            "visits_in_stall": sum(flat[0] < visit < flat[1] for visit in visits)}
    return found


def _fuel(used: FuelUsed | None, story: CookStory) -> dict[str, float | bool | None]:
    found: dict[str, float | bool | None] = {"fuel_left_share": story.fuel.level_last}
    if used:
        found |= {"fuel_share": used.share, "fuel_kg": used.kg, "fuel_low_kg": used.low_kg,
                  "fuel_high_kg": used.high_kg, "fuel_estimated": used.how == "estimated"}
    return found


def _spanned(name: str, span: Span | None) -> dict[str, float | None]:
    return {f"{name}_min": span[1] - span[0], f"{name}_at": span[0]} if span else {}


def _hourly(count: int, minutes: float) -> float | None:
    return count / (minutes / 60) if minutes >= 60 else None
