"""Readings to derived facts by arithmetic alone: how far, how fast, how long, and the numbers that plans refer to.

Judgement about these numbers (what is far, what is hot) belongs to rules/understand, not here.
"""

import math
from collections.abc import Callable, Iterable, Mapping

from advisor.facts import Fact, Origin, Value
from advisor.profile import CookerProfile
from advisor.rulebook.catalogue import VentChart
from advisor.situation import Situation
from advisor.ventchart import A_LITTLE_UNDER, PRIOR_SD, SMALLEST_GAP, aimed, holding, in_sight, nudged
from advisor.vocabulary import Vocabulary
from advisor.water import boiling_point_f

BURP_EVERY_MIN = 10.0       # common practice, no published source: burp, wait 10, burp again
HANDS_OFF_MIN = 5.0         # common practice, no published source: no vent move sooner after the last
ANSWERED_MIN = 8.0          # a setting left alone for so long shows where it leads: judgement
SETTLED_F = 15.0            # a dome that goes further than this in ten minutes has not shown where it leads
SHOWS_WITHIN_F = 90.0       # further off it says nothing about what would hold the target
SETTLE_BELOW_F = 10.0       # common practice, no published source: "a little under the target, because it creeps up"
INCH_IN = 1.0               # common practice, no published source: the bottom vent about an inch open
NEAR_TARGET_F = 15.0        # common practice, no published source: off by 10-15 °F is near enough
STEADY_F_PER_MIN = 0.5      # a move of less than 5 °F, one step of the dial, in 10 minutes can't be told from none
SHUT = 0.02                 # a slide that far from its stop lets no air worth naming through: judgement
BLAZES = ("grease_fire", "flames")
DIRTY_SMOKE = ("white", "grey", "yellow", "black")
TREND_WINDOW_MIN = 30.0     # older readings say nothing about where the dome heads now
PACE_MIN = 12.0             # readings within this of the last one make its pace
AHEAD_MIN = 10.0            # how far ahead the pace is followed: about what a fire needs to answer a move
MOST_AHEAD_F = 30.0         # no pace is believed further than this
SHORTEST_GAP_MIN = 1.0      # two readings closer than this differ by noise


def derive(situation: Situation, vocabulary: Vocabulary, chart: VentChart, profile: CookerProfile,
           now: float) -> dict[str, Fact]:
    """All facts known by telling and by arithmetic at the minute `now`, told ones first."""
    known = situation.at(vocabulary, now)
    book = _Book(known, vocabulary, now)
    _profile(book, profile)
    _vents(book, profile)
    _taken(book, vocabulary)
    _distance(book)
    _pace(book, situation)
    _near_target(book, situation)
    _hands(book, situation)
    _smoke(book, situation)
    _blaze(book, situation)
    _gauges(book)
    _plan_numbers(book, chart, profile, situation)
    return known


class _Book:
    """The facts gathered so far; `put` never overrides what was told."""

    def __init__(self, known: dict[str, Fact], vocabulary: Vocabulary, now: float) -> None:
        self.known, self._vocabulary, self.now = known, vocabulary, now

    def number(self, name: str) -> float | None:
        return _number(self.known, name)

    def put(self, name: str, value: Value | None, origin: Origin = "derived") -> None:
        if value is None or name in self.known or name not in self._vocabulary:
            return  # a rule base may do without some of these facts
        low, high = self._vocabulary[name].bounds
        if isinstance(value, float) and not low <= value <= high:
            return  # arithmetic on believable numbers gave an unbelievable one: better unknown
        self.known[name] = Fact(name, value, origin, self.now)

    def both(self, one: str, other: str, rule: Callable[[float, float], float]) -> float | None:
        first, second = self.number(one), self.number(other)
        return None if first is None or second is None else rule(first, second)


def _profile(book: _Book, profile: CookerProfile) -> None:
    book.put("altitude_ft", profile.altitude_ft, "learned")


def _vents(book: _Book, profile: CookerProfile) -> None:
    """Inches and fractions of a vent agree by its full travel."""
    for vent, travel in (("bottom_vent", profile.bottom_travel_in), ("top_vent", profile.top_travel_in)):
        inches, opening = book.number(f"{vent}_in"), book.number(vent)
        if inches is not None:
            book.put(vent, min(1.0, inches / travel))
        elif opening is not None and vent == "bottom_vent":
            book.put("bottom_vent_in", round(opening * travel, 2))


def _taken(book: _Book, vocabulary: Vocabulary) -> None:
    """What a word such as "low and slow" is taken to mean in figures, until a figure is told."""
    for name in vocabulary.standing_in & book.known.keys():
        for other, value in vocabulary[name].taken_as.get(str(book.known[name].value), {}).items():
            if other not in book.known:
                book.put(other, value, "assumed")
                book.put(f"{other}_taken", True)


def _distance(book: _Book) -> None:
    book.put("dome_f", book.both("target_f", "over_f", lambda target, over: target + over))
    book.put("over_f", book.both("dome_f", "target_f", lambda dome, target: dome - target))


def _pace(book: _Book, situation: Situation) -> None:
    rate = book.number("rate_f_per_min")
    if rate is None and "trend" not in book.known:
        rate = pace_of(situation.readings, book.now, max((move.at_min for move in situation.moves), default=-math.inf))
        book.put("rate_f_per_min", rate)
    if rate is not None:
        book.put("trend", trend_of(rate))
    if (over := book.number("over_f")) is not None:
        book.put("ahead_f", over + max(-MOST_AHEAD_F, min(MOST_AHEAD_F, AHEAD_MIN * (rate or 0.0))))


def pace_of(readings: tuple[tuple[float, float], ...], now: float, moved_at: float = -math.inf) -> float | None:
    """°F per minute over the last readings, a line of least squares; None when they say nothing about now.

    Counted are the last two and whatever lies within PACE_MIN of the last and after the last move of a vent or the lid
    (at moved_at): a dial shows steps of 5 °F, which make two readings soon after one another say much too much.
    """
    if len(readings) < 2 or now - readings[-1][0] > TREND_WINDOW_MIN:
        return None
    last, before = readings[-1][0], readings[-2][0]
    if not SHORTEST_GAP_MIN <= last - before <= TREND_WINDOW_MIN:
        return None
    since = max(last - PACE_MIN, moved_at - SHORTEST_GAP_MIN)
    used = [(minute - last, dome) for minute, dome in readings if minute >= min(before, since)]
    middle, level = (sum(column) / len(used) for column in zip(*used, strict=True))
    spread = sum((minute - middle) ** 2 for minute, _ in used)
    return round(sum((minute - middle) * (dome - level) for minute, dome in used) / spread, 2)


def trend_of(rate_f_per_min: float) -> str:
    """rising, falling or steady."""
    if abs(rate_f_per_min) < STEADY_F_PER_MIN:
        return "steady"
    return "rising" if rate_f_per_min > 0 else "falling"


def _near_target(book: _Book, situation: Situation) -> None:
    """Since when the readings have kept near the target, without a break."""
    target = book.number("target_f")
    if target is None:
        return
    since = None
    for minute, dome in reversed(situation.readings):
        if abs(dome - target) > NEAR_TARGET_F:
            break
        since = minute
    if since is not None and len(situation.readings) > 1:
        book.put("at_target_for_min", book.now - since)


def _hands(book: _Book, situation: Situation) -> None:
    """How long ago somebody said how often the vents are moved: hands come to rest."""
    told = situation.facts.get("vents_moved_every_min")
    book.put("chase_told_ago_min", book.now - told.at_min if told else None)


def _smoke(book: _Book, situation: Situation) -> None:
    """For how long it has smoked the same, once it has been told twice."""
    told = situation.facts.get("smoke")
    if told and told.since_min is not None and told.at_min > told.since_min and told.value in DIRTY_SMOKE:
        book.put("smoke_for_min", told.at_min - told.since_min)


def _blaze(book: _Book, situation: Situation) -> None:
    """For how long both vents have been shut, and for how long it burnt on by the last word of it."""
    shut = shut_since(book.known, situation)
    if shut is not None:
        book.put("shut_in_for_min", book.now - shut)
    burning = [fact for name in BLAZES if (fact := book.known.get(name)) and fact.value is True]
    if not burning:
        return
    last = max(fact.at_min for fact in burning)
    first = min(fact.at_min if fact.since_min is None else fact.since_min for fact in burning)
    book.put("blaze_lasts_min", last - first)
    if shut is not None and last >= shut:
        book.put("burns_shut_in_min", last - shut)


def shut_since(known: Mapping[str, Fact], situation: Situation) -> float | None:
    """The minute since when both vents have been shut, as told; None when they are not known to be."""
    vents = [known.get(name) for name in ("bottom_vent", "top_vent")]
    if not all(vent and float(vent.value) <= SHUT for vent in vents):
        vents = [fact for fact in (known.get("choked"),) if fact and fact.value is True]
    if not vents:
        return None
    told = max(vent.at_min if vent.since_min is None else vent.since_min for vent in vents if vent)
    moved = situation.facts.get("vents_moved_ago_min")
    return min(told, moved.at_min - float(moved.value)) if moved and moved.at_min >= told else told


def _gauges(book: _Book) -> None:
    book.put("gauge_gap_f", book.both("dome_f", "grate_f", lambda dome, grate: dome - grate))
    altitude = book.number("altitude_ft")
    boiling = boiling_point_f(altitude or 0.0)
    book.put("boiling_point_f", boiling, "derived" if altitude is not None else "assumed")
    if (reads := book.number("boiling_reads_f")) is not None:
        book.put("boiling_error_f", reads - boiling)
        book.put("true_dome_f", book.both("dome_f", "boiling_error_f", lambda dome, error: dome - error))
    if (reads := book.number("ice_reads_f")) is not None:
        book.put("ice_error_f", reads - 32.0)


def _plan_numbers(book: _Book, chart: VentChart, profile: CookerProfile, situation: Situation) -> None:
    book.put("inch_bottom", min(1.0, INCH_IN / profile.bottom_travel_in))
    moved = book.number("vents_moved_ago_min")
    if moved is not None:
        book.put("rest_of_hands_off_min", max(0.0, HANDS_OFF_MIN - moved))
    if (opened := book.number("lid_opened_ago_min")) is not None:
        book.put("rest_of_burp_min", max(0.0, BURP_EVERY_MIN - opened))
    target = book.number("target_f")
    if target is None:
        return
    book.put("settle_f", target - SETTLE_BELOW_F)
    hold, below = holding(chart, profile, target), holding(chart, profile, target - SETTLE_BELOW_F)
    origin: Origin = "learned" if hold.cooks else "derived"
    shown = shown_settings(situation, target, book.number("top_vent"), heading(book.known), book.now)
    for name, opening in settings(book.known, hold.opening, shown, hold.log_sd, below.opening / hold.opening).items():
        book.put(name, opening, origin)
    if hold.cooks:
        book.put("chart_top", hold.opening, "learned")
        book.put("chart_cooks", str(hold.cooks), "learned")


def shown_settings(situation: Situation, target_f: float, top: float | None, ahead_f: float | None,
                   now: float) -> list[tuple[float, float]]:
    """What the settings of this cook have shown: (top opening, °F off the target under it), each left alone for a while.

    The last counts with where the dome heads; earlier ones with the last reading before they were changed.
    """
    shown, since, stood = [], -math.inf, None
    for move in situation.moves:
        if move.top is None:
            continue
        last = next((dome for minute, dome in reversed(situation.readings) if minute <= move.at_min), None)
        stood = move.top_was if stood is None else stood
        if stood is not None and last is not None and move.at_min - since >= ANSWERED_MIN:
            shown.append((stood, last - target_f))
        since, stood = move.at_min, move.top
    if top is not None and ahead_f is not None and now - since >= ANSWERED_MIN:
        shown.append((top, ahead_f))
    return [(opening, off) for opening, off in shown if opening > SMALLEST_GAP and abs(off) <= SHOWS_WITHIN_F]


def heading(known: Mapping[str, Fact]) -> float | None:
    """Where the dome heads, °F off the target, once it moves slowly; None while it is still answering."""
    over, ahead, trend = _number(known, "over_f"), _number(known, "ahead_f"), known.get("trend")
    if trend and trend.value != "steady" and "rate_f_per_min" not in known:
        return None
    return ahead if over is not None and ahead is not None and abs(ahead - over) <= SETTLED_F else None


def settings(known: Mapping[str, Fact], prior: float, shown: Iterable[tuple[float, float]],
             prior_sd: float = PRIOR_SD, settle: float = A_LITTLE_UNDER) -> dict[str, float]:
    """Openings of the top vent by name. `prior` should hold the target, give or take prior_sd of its logarithm.

    settle: part of the holding setting that holds SETTLE_BELOW_F less.
    """
    hold = in_sight(prior, shown, prior_sd)
    found = {"hold_top": hold, "settle_top": round(max(SMALLEST_GAP, settle * hold), 3)}
    top, ahead = _number(known, "top_vent"), _number(known, "ahead_f")
    if top is not None and ahead is not None:
        found |= {"aim_top": aimed(top, ahead, hold), "nudge_top": nudged(top, ahead)}
    return found | {"close_top": found.get("aim_top", found["settle_top"])}


def _number(known: Mapping[str, Fact], name: str) -> float | None:
    fact = known.get(name)
    return float(fact.value) if fact and not isinstance(fact.value, bool | str) else None


def told_only(known: Mapping[str, Fact], vocabulary: Vocabulary) -> dict[str, Value]:
    """The part of what is known that outside programs are shown: facts that can be told."""
    return {name: fact.value for name, fact in known.items()
            if name in vocabulary.told and name not in vocabulary.for_one_message}
