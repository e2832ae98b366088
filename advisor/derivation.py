"""Readings to derived facts by arithmetic alone: how far, how fast, how long, and the numbers that plans refer to.

Judgement about these numbers (what is far, what is hot) belongs to rules/understand, not here.
"""

import math
from collections.abc import Mapping

from advisor.book import Book
from advisor.facts import Fact, Value
from advisor.pace import level_of, pace_of, trend_of
from advisor.profile import CookerProfile
from advisor.rulebook.catalogue import VentChart
from advisor.situation import Situation
from advisor.steering import steer
from advisor.vocabulary import Vocabulary
from advisor.water import boiling_point_f

NEAR_TARGET_F = 15.0        # common practice, no published source: off by 10-15 °F is near enough
SHUT = 0.02                 # a slide that far from its stop lets no air worth naming through: judgement
BLAZES = ("grease_fire", "flames")
DIRTY_SMOKE = ("white", "grey", "yellow", "black")


def derive(situation: Situation, vocabulary: Vocabulary, chart: VentChart, profile: CookerProfile,
           now: float) -> dict[str, Fact]:
    """All facts known by telling and by arithmetic at the minute `now`, told ones first."""
    known = situation.at(vocabulary, now)
    book = Book(known, vocabulary, now)
    _profile(book, profile)
    _vents(book, profile)
    _lit(book, situation)
    _taken(book, vocabulary)
    _distance(book)
    _read(book, situation)
    _pace(book, situation)
    _near_target(book, situation)
    _hands(book, situation)
    _smoke(book, situation)
    _blaze(book, situation)
    _gauges(book)
    steer(book, chart, profile, situation)
    return known


def _profile(book: Book, profile: CookerProfile) -> None:
    book.put("altitude_ft", profile.altitude_ft, "learned")


def _vents(book: Book, profile: CookerProfile) -> None:
    """Inches and fractions of a vent agree by its full travel."""
    for vent, travel in (("bottom_vent", profile.bottom_travel_in), ("top_vent", profile.top_travel_in)):
        inches, opening = book.number(f"{vent}_in"), book.number(vent)
        if inches is not None:
            book.put(vent, min(1.0, inches / travel))
        elif opening is not None and vent == "bottom_vent":
            book.put("bottom_vent_in", round(opening * travel, 2))


def _lit(book: Book, situation: Situation) -> None:
    """ "Just lit it": how long that is ago, when nobody told a time."""
    told = situation.facts.get("stage")
    if told and told.value == "lighting":
        book.put("lit_ago_min", float(book.now - (told.at_min if told.since_min is None else told.since_min)))


def _taken(book: Book, vocabulary: Vocabulary) -> None:
    """What a word such as "low and slow" is taken to mean in figures, until a figure is told."""
    for name in vocabulary.standing_in & book.known.keys():
        for other, value in vocabulary[name].taken_as.get(str(book.known[name].value), {}).items():
            if other not in book.known:
                book.put(other, value, "assumed")
                book.put(f"{other}_taken", True)


def _distance(book: Book) -> None:
    book.put("dome_f", book.both("target_f", "over_f", lambda target, over: target + over))
    book.put("over_f", book.both("dome_f", "target_f", lambda dome, target: dome - target))
    if "dome_f" not in book.known:  # the grate serves where nothing else is read
        book.put("over_f", book.both("grate_f", "target_f", lambda grate, target: grate - target), "assumed")


def _pace(book: Book, situation: Situation) -> None:
    rate, moved_at = book.number("rate_f_per_min"), max((move.at_min for move in situation.moves), default=-math.inf)
    if rate is None and "trend" not in book.known:
        rate = pace_of(situation.readings, book.now, moved_at)
        book.put("rate_f_per_min", rate)
    if rate is not None:
        book.put("trend", trend_of(rate))
    if trend_now(book) == "steady" and (target := book.number("target_f")) is not None and not situation.from_target:
        level = level_of(situation.readings, book.now, moved_at)
        book.put("level_off_f", None if level is None else level - target)


def _read(book: Book, situation: Situation) -> None:
    """How long ago the dome was last read."""
    if situation.readings:
        book.put("read_ago_min", book.now - situation.readings[-1][0])


def trend_now(book: Book) -> Value | None:
    return book.known["trend"].value if "trend" in book.known else None


def _near_target(book: Book, situation: Situation) -> None:
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


def _hands(book: Book, situation: Situation) -> None:
    """How long ago somebody said how often the vents are moved: hands come to rest."""
    told = situation.facts.get("vents_moved_every_min")
    book.put("chase_told_ago_min", book.now - told.at_min if told else None)


def _smoke(book: Book, situation: Situation) -> None:
    """For how long it has smoked the same, once it has been told twice."""
    told = situation.facts.get("smoke")
    if told and told.since_min is not None and told.at_min > told.since_min and told.value in DIRTY_SMOKE:
        book.put("smoke_for_min", told.at_min - told.since_min)


def _blaze(book: Book, situation: Situation) -> None:
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


def _gauges(book: Book) -> None:
    book.put("gauge_gap_f", book.both("dome_f", "grate_f", lambda dome, grate: dome - grate))
    altitude = book.number("altitude_ft")
    boiling = boiling_point_f(altitude or 0.0)
    book.put("boiling_point_f", boiling, "derived" if altitude is not None else "assumed")
    if (reads := book.number("boiling_reads_f")) is not None:
        book.put("boiling_error_f", reads - boiling)
        book.put("true_dome_f", book.both("dome_f", "boiling_error_f", lambda dome, error: dome - error))
    if (reads := book.number("ice_reads_f")) is not None:
        book.put("ice_error_f", reads - 32.0)


def told_only(known: Mapping[str, Fact], vocabulary: Vocabulary) -> dict[str, Value]:
    """The part of what is known that outside programs are shown: facts that can be told."""
    return {name: fact.value for name, fact in known.items()
            if name in vocabulary.told and name not in vocabulary.for_one_message}
