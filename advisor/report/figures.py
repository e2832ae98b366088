"""All figures of a cook under their names, each in one unit; what is not known has no entry. The lessons build on them."""

from advisor.report import curve, hands
from advisor.report.curve import Span
from advisor.report.fuel import FuelUsed, fuel_used
from advisor.report.known_figures import Figures
from advisor.report.stalling import stall
from advisor.report.story import CookStory, Points


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
    found |= _handled(story, cooking) | _lids(story, points, cooking) | _fed(story, points, found.get("reached_at"))
    found |= _fuel(fuel_used(story, points), story)
    return {name: value for name, value in found.items() if value is not None}


def _held(story: CookStory, target_f: float, points: Points) -> dict[str, float | None]:
    """What hangs on the target."""
    visits = hands.occasions(hands.made(story.moves))
    overdone = hands.overdone(story.moves, points, target_f)
    over, arrived = curve.worst_over(points, target_f), curve.arrived_min(points, target_f)
    under = None if arrived is None else curve.worst_under(curve.since(points, arrived), target_f)
    found = {"reached_at": curve.reached_min(points, target_f), "swings": curve.swings(points, target_f),
             "pushed_across": len(hands.pushed_across(hands.too_close(visits), points, target_f)),
             "overdone": len(overdone), "overdone_at": overdone[0] if overdone else None,
             "under_f": under and under[1], "under_at": under and under[0]}
    if found["reached_at"] is not None:
        after = curve.since(points, found["reached_at"])
        found |= {"reached_in": found["reached_at"]} | _in_band(after, target_f, visits)
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
    dip = hands.deepest_dip(story.lids, points)
    chased = hands.chased(story.lids, hands.occasions(hands.made(story.moves)))
    return {"lids": len(lids), "burps": len(story.lids) - len(lids), "lids_an_hour": _hourly(len(lids), cooking),
            "lid_up_min": hands.lid_minutes(story.lids), "dip_at": dip and dip[0], "dip_f": dip and dip[1],
            "chased_lids": len(chased), "chased_lids_at": chased[0] if chased else None}


def _fed(story: CookStory, points: Points, reached: float | None) -> dict[str, float | None]:
    """The food: on, off, its core, its stall, its rest."""
    on, off, until = story.food_on_min, story.food_off_min, story.rested_until_min
    rested = None if off is None or until is None else until - off
    found: dict[str, float | None] = {"food_on_at": on, "food_off_at": off, "rested_min": rested}
    if on is not None and reached is not None:
        found |= _waited(on, reached, curve.value_at(points, on), story.target_f or 0.0)
    if story.meat:
        top = max(story.meat, key=lambda point: point[1])
        found |= {"core_first_f": story.meat[0][1], "core_highest_f": top[1], "core_highest_at": top[0]}
    if flat := stall(story.meat):
        during = [visit for visit in hands.occasions(hands.made(story.moves)) if flat[0] < visit < flat[1]]
        found |= {"stall_f": curve.value_at(story.meat, flat[0]), "visits_in_stall": len(during)}
    return found | _spanned("stall", flat)


def _waited(on: float, reached: float, dome_f: float | None, target_f: float) -> dict[str, float | None]:
    """How long the food waited for the cooker, or the cooker's heat for the food; a dome that was over is neither."""
    if on >= reached:
        return {"steady_before_food_min": on - reached}
    return {"food_before_target_min": reached - on} if dome_f is not None and dome_f < target_f else {}


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
