"""Figures of what hands did to the air: moves too close or too big, vents left wide, lids. Pure functions.

Moves less than SAME_VISIT minutes apart are one visit to the cooker.
"""

from collections.abc import Iterable, Sequence
from itertools import pairwise

from advisor.report.curve import BAND_F, Span, known_min, longest, since, spans_between, up_to, value_at
from advisor.report.story import LidUp, Points, Vent, VentMove

SAME_VISIT = 1.5      # minutes: both vents set one after the other are one visit; judgement
TOO_CLOSE = 5.0       # minutes: a fire shows little of a move sooner; common practice, no published source
ANSWER_MIN = 45.0     # minutes within which a crossing is put down to the moves before it; judgement
BIG = 2.0             # an opening doubled or halved; common practice, no published source: small moves
WIDE = 0.5            # of full travel; half open is meant for a hot cook: common practice, no published source
NEAR_TARGET_F = 35.0  # this far below its target a dome with open vents runs on past it; judgement
BEFORE_PEAK = 90.0    # minutes before the highest reading in which its cause is looked for; judgement
AFTER_LID = 10.0      # minutes in which a dip comes from the lid: common practice, no published source


def made(moves: Sequence[VentMove]) -> list[VentMove]:
    """The moves that changed an opening; a vent told for the first time merely stood so."""
    stood: dict[Vent, float] = {}
    changed = []
    for move in sorted(moves, key=lambda move: move.at_min):
        before = stood.get(move.vent) if move.was is None else move.was
        if before is not None and before != move.opening:
            changed.append(move)
        stood[move.vent] = move.opening
    return changed


def visits(moves: Sequence[VentMove]) -> list[list[VentMove]]:
    """The moves by visits, oldest first."""
    found: list[list[VentMove]] = []
    for move in sorted(moves, key=lambda move: move.at_min):
        if found and move.at_min - found[-1][-1].at_min < SAME_VISIT:
            found[-1].append(move)
        else:
            found.append([move])
    return found


def occasions(moves: Sequence[VentMove]) -> list[float]:
    """The minutes at which visits began."""
    return [visit[0].at_min for visit in visits(moves)]


def too_close(times: Sequence[float]) -> list[float]:
    """The visits that came before the one before them could show."""
    return [later for earlier, later in pairwise(times) if later - earlier < TOO_CLOSE]


def pushed_across(times: Iterable[float], points: Points, target_f: float) -> list[float]:
    """Those visits after which the dome went from one side of the target out of the band on the other."""
    return [visit for visit in times if _crossed(up_to(since(points, visit), visit + ANSWER_MIN), target_f)]


def overdone(moves: Sequence[VentMove], points: Points, target_f: float) -> list[float]:
    """When an opening was changed by BIG the way the dome called for, and the dome then ran out on the other side."""
    big = [move.at_min for move in moves if _called_for(move, value_at(points, move.at_min), target_f)]
    return pushed_across(big, points, target_f)


def _called_for(move: VentMove, dome_f: float | None, target_f: float) -> bool:
    if dome_f is None or move.was is None:
        return False
    less, more = (move.opening, move.was) if dome_f > target_f else (move.was, move.opening)
    return more > 0 and more >= BIG * less


def _crossed(points: Points, target_f: float) -> bool:
    if not points:
        return False
    above = points[0][1] > target_f
    return any(value < target_f - BAND_F if above else value > target_f + BAND_F for _, value in points)


def openings(moves: Sequence[VentMove], vent: Vent, until: float) -> list[tuple[float, float, float]]:
    """(from, to, opening) of one vent as far as it is known, oldest first."""
    own = sorted((move for move in moves if move.vent == vent), key=lambda move: move.at_min)
    starts = [(0.0, own[0].was)] if own and own[0].was is not None else []
    starts += [(move.at_min, move.opening) for move in own]
    ends = [min(start, until) for start, _ in starts[1:]] + [until]
    return [(start, end, opening) for (start, opening), end in zip(starts, ends) if end > start]


def wide_near_target(moves: Sequence[VentMove], points: Points, target_f: float, peak_min: float) -> list[Span]:
    """The spans before a peak with the top vent half open or more, the dome being close below the target or above."""
    from_min = max(0.0, peak_min - BEFORE_PEAK)
    near = spans_between(up_to(since(points, from_min), peak_min), target_f - NEAR_TARGET_F, float("inf"))
    wide = [(start, end) for start, end, opening in openings(moves, "top", peak_min) if opening >= WIDE]
    return overlaps(near, wide)


def untouched(spans: Sequence[Span], times: Sequence[float]) -> Span | None:
    """The longest part of some spans without a visit to the vents."""
    edges = [float("-inf"), *times, float("inf")]
    return longest(overlaps(spans, list(pairwise(edges))))


def both_shut(moves: Sequence[VentMove], until: float) -> list[Span]:
    """The spans in which both vents stood shut."""
    shut = [[(start, end) for start, end, opening in openings(moves, vent, until) if opening == 0]
            for vent in ("bottom", "top")]
    return overlaps(*shut)


def put_out_min(moves: Sequence[VentMove], until: float) -> float | None:
    """When both vents were shut for good, at the end of the cook; None when they were not."""
    last = both_shut(moves, until)[-1:]
    return last[0][0] if last and last[0][1] >= until else None


def overlaps(ones: Sequence[Span], others: Sequence[Span]) -> list[Span]:
    """What two lists of spans, each in order and without overlaps of its own, have in common."""
    common, i, j = [], 0, 0
    while i < len(ones) and j < len(others):
        start, end = max(ones[i][0], others[j][0]), min(ones[i][1], others[j][1])
        if end > start:
            common.append((start, end))
        if ones[i][1] < others[j][1]:
            i += 1
        else:
            j += 1
    return common


def lid_minutes(lids: Sequence[LidUp]) -> float | None:
    """Minutes the lid was up; None unless every lifting has its length."""
    known = [lid.lasted_min for lid in lids if lid.lasted_min is not None]
    return sum(known) if lids and len(known) == len(lids) else None


def chased(lids: Sequence[LidUp], times: Sequence[float]) -> list[float]:
    """The lid openings, burps left out, after which the vents were moved before the dip could mend itself."""
    return [lid.at_min for lid in lids if not lid.burp
            and any(0 < visit - lid.at_min <= AFTER_LID for visit in times)]


def deepest_dip(lids: Sequence[LidUp], points: Points) -> tuple[float, float] | None:
    """(minute, degrees) of the deepest fall of the dome just after the lid was lifted, burps left out."""
    dips = [(lid.at_min, after[0][1] - min(value for _, value in after)) for lid in lids if not lid.burp
            if known_min(after := up_to(since(points, lid.at_min), lid.at_min + AFTER_LID)) > 0]
    return max(dips, key=lambda dip: dip[1], default=None)
