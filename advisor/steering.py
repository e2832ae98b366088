"""The numbers that plans steer by: where the vents go, when to open again, when to look, what was done lately.

Arithmetic on readings and moves; whether any of it is to be done belongs to the rules.
"""

import math
from collections.abc import Iterable, Mapping

from advisor.answered import SMALLEST_GAP, Shown, answer
from advisor.book import Book, number
from advisor.facts import Fact, Origin
from advisor.pace import Readings, pace_of
from advisor.profile import CookerProfile
from advisor.rulebook.catalogue import VentChart
from advisor.situation import Situation
from advisor.ventchart import Holding, aimed, holding, nudged, stepped

BURP_EVERY_MIN = 10.0       # common practice, no published source: burp, wait 10, burp again
HANDS_OFF_MIN = 5.0         # common practice, no published source: no vent move sooner after the last
ANSWERED_MIN = 8.0          # a setting left alone for so long shows where it leads: judgement
SETTLED_F = 15.0            # a dome that goes further than this in ten minutes has not shown where it leads
SHOWS_WITHIN_F = 90.0       # further off it says nothing about what would hold the target
SHOWN_SD_F, SHOWN_SD_PER_MIN, PACE_SD_MIN = 6.0, 0.25, 6.0  # dial and walls; walls drift; what a dome on the move hides
FIRST_SD_F = 20.0           # a setting nobody saw being made may still be answering
SETTLE_BELOW_F = 10.0       # common practice, no published source: "a little under the target, because it creeps up"
INCH_IN = 1.0               # common practice, no published source: the bottom vent about an inch open
LATELY_MIN = 60.0           # moves within this are counted
ONE_MOVE_MIN = 2.0          # vents moved within this of each other are one move
REOPEN_F = (10.0, 20.0, 45.0)   # least, usual and most by which a choked fire gets its air ahead of the target: judgement
LONGEST_SHUT_MIN, AIR_AT_LAST_F = 30.0, 25.0  # a fire shut in for so long gets its air as soon as it is so near: judgement
ANSWERS_IN_MIN = 7.0        # after which the air given back shows: judgement, between dial lag and a fire's answer
NEAR_F, LAG_MIN = 12.0, 2.0     # a look is due before the dome comes nearer than this; lag of the dial and of a hand
LOOK_MIN = (3.0, 10.0)      # no look is asked for sooner or later than this on the way: judgement
WARM_UP_F = 30.0            # what cold walls take out of a dome that is just held: judgement


def steer(book: Book, chart: VentChart, profile: CookerProfile, situation: Situation) -> None:
    """Put all of them into the book."""
    book.put("inch_bottom", min(1.0, INCH_IN / profile.bottom_travel_in))
    _done_lately(book, situation)
    if (over := book.number("over_f")) is not None:
        shut = min(book.number("vents_moved_ago_min") or 0.0, LONGEST_SHUT_MIN)
        rate = book.number("rate_f_per_min")
        until = over - max(reopen_ahead(rate), AIR_AT_LAST_F if shut >= LONGEST_SHUT_MIN else 0.0)
        book.put("until_reopen_f", until)
        book.put("reopen_in_min", reopen_in(until, rate))
    target = book.number("target_f")
    if target is None:
        return
    book.put("over_for_min", over_for(situation.readings, target, book.now))
    book.put("settle_f", target - SETTLE_BELOW_F)
    book.put("look_in_min", look_in(book.number("over_f"), book.number("rate_f_per_min")))
    hold, below = holding(chart, profile, target), holding(chart, profile, target - SETTLE_BELOW_F)
    origin: Origin = "learned" if hold.cooks else "derived"
    shown = shown_settings(situation, target, book.number("top_vent"), heading(book.known), book.now)
    for name, opening in settings(book.known, hold, shown, below.opening / hold.opening).items():
        book.put(name, opening, origin)
    if hold.cooks:
        book.put("chart_top", hold.opening, "learned")
        book.put("chart_cooks", str(hold.cooks), "learned")


def _done_lately(book: Book, situation: Situation) -> None:
    moved, opened = book.number("vents_moved_ago_min"), book.number("lid_opened_ago_min")
    if moved is not None:
        book.put("rest_of_hands_off_min", max(0.0, HANDS_OFF_MIN - moved))
    if opened is not None:
        book.put("rest_of_burp_min", max(0.0, BURP_EVERY_MIN - opened))
    vents = [move.at_min for move in situation.moves if move.top is not None or move.bottom is not None]
    book.put("moves_lately", float(_apart(minute for minute in vents if book.now - minute <= LATELY_MIN)))
    since = max((minute for minute in vents), default=book.now)
    burps = sum(move.lid and move.at_min >= since for move in situation.moves)
    book.put("burps_lately", float(burps) if burps else None)


def _apart(minutes: Iterable[float]) -> int:
    """How many moves there are, those made together counted as one."""
    count, last = 0, -math.inf
    for minute in sorted(minutes):
        if minute - last > ONE_MOVE_MIN:
            count, last = count + 1, minute
    return count


def look_in(over_f: float | None, rate: float | None) -> float | None:
    """Minutes until a dome on the move needs the next look: before it comes near the target, or soon when it runs away."""
    if over_f is None or rate is None:
        return None
    soonest, latest = LOOK_MIN
    if not rate or over_f * rate > 0:
        return latest if abs(rate) < 1.0 else 0.5 * latest
    return float(round(max(soonest, min(latest, (abs(over_f) - NEAR_F) / abs(rate) - LAG_MIN))))


def reopen_ahead(rate: float | None) -> float:
    """°F above the target at which a choked fire gets its air back, the dome moving at that rate."""
    least, usual, most = REOPEN_F
    return usual if rate is None or rate >= 0 else round(max(least, min(most, -rate * ANSWERS_IN_MIN)))


def over_for(readings: Readings, target_f: float, now: float) -> float | None:
    """Minutes since a reading was last no more than NEAR_F over the target; None when none was or nothing is over now."""
    near = [minute for minute, dome in readings if dome <= target_f + NEAR_F]
    return now - near[-1] if near and readings[-1][1] > target_f + NEAR_F else None


def reopen_in(until_f: float, rate: float | None) -> float | None:
    """Minutes until a choked fire needs the next look: about when it gets its air back."""
    if rate is None:
        return None
    soonest, latest = LOOK_MIN
    return float(round(max(soonest, min(latest, until_f / -rate)))) if rate < 0 else 0.5 * latest


def shown_settings(situation: Situation, target_f: float, top: float | None, ahead_f: float | None,
                   now: float) -> list[Shown]:
    """What the settings of this cook have shown, each left alone for a while.

    The last counts with where the dome heads; earlier ones with where it headed before they were changed.
    """
    shown, since, stood = [], -math.inf, None
    for move in situation.moves:
        if move.top is None:
            continue
        stood = move.top_was if stood is None else stood
        if stood is not None and move.at_min - since >= ANSWERED_MIN:
            shown += _seen(stood, situation.readings, target_f, since, move.at_min, now)
        since, stood = move.at_min, move.top
    if top is not None and ahead_f is not None and now - since >= ANSWERED_MIN:
        shown.append(Shown(top, ahead_f, SHOWN_SD_F if since > -math.inf else FIRST_SD_F))
    return [one for one in shown if one.opening > SMALLEST_GAP and abs(one.off_f) <= SHOWS_WITHIN_F]


def _seen(opening: float, readings: Readings, target_f: float, since: float, until: float, now: float) -> list[Shown]:
    """A setting that stood from `since` until `until`, by its last readings."""
    used = tuple(reading for reading in readings if reading[0] <= until)
    if not used or used[-1][0] < since + 0.5 * ANSWERED_MIN:
        return []
    rate = pace_of(used, used[-1][0], since)
    sd = SHOWN_SD_F + SHOWN_SD_PER_MIN * (now - until) + PACE_SD_MIN * abs(rate or 0.0)
    return [Shown(opening, used[-1][1] - target_f + PACE_SD_MIN * (rate or 0.0), sd if rate is not None else max(sd, FIRST_SD_F))]


def heading(known: Mapping[str, Fact]) -> float | None:
    """Where the dome heads, °F off the target, once it moves slowly; None while it is still answering."""
    over, ahead, trend = number(known, "over_f"), number(known, "ahead_f"), known.get("trend")
    if trend and trend.value != "steady" and "rate_f_per_min" not in known:
        return None
    if (level := number(known, "level_off_f")) is not None:
        return level
    return ahead if over is not None and ahead is not None and abs(ahead - over) <= SETTLED_F else None


def settings(known: Mapping[str, Fact], prior: Holding, shown: Iterable[Shown], settle: float) -> dict[str, float]:
    """Openings of the vents by name. settle: part of the holding setting that holds SETTLE_BELOW_F less."""
    found = answer(prior.opening, prior.log_sd, shown)
    hold = round(found.hold, 3)
    names = {"hold_top": hold, "settle_top": round(max(SMALLEST_GAP, settle * hold), 3),
             "warm_top": round(min(1.0, hold * math.exp(found.gain * WARM_UP_F)), 3)}
    top, bottom, ahead = number(known, "top_vent"), number(known, "bottom_vent"), number(known, "ahead_f")
    if top is not None and ahead is not None:
        level = number(known, "level_off_f")
        names |= {"aim_top": aimed(top, ahead, found), "nudge_top": nudged(top, ahead if level is None else level, found)}
    if bottom is not None and ahead is not None:
        names["aim_bottom"] = stepped(bottom, ahead, found)
    return names | {"close_top": names.get("aim_top", names["settle_top"])}
