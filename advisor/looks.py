"""When to look, when to move again, and how far ahead of the target a fire is turned. Arithmetic on readings and times."""


from advisor.pace import Readings

LEAST_OFF_F, FREE_MOVES, DEARER_F = 5.0, 3, 1.0     # an error worth a move, and by how much more after so many: judgement
MOST_MOVES, DEAREST_F = 6, 4.0       # beyond so many within LATELY_MIN it is chasing: judgement
QUIET_MIN, BIG_OFF_F, QUIET_FOR_F = 6.0, 25.0, 0.4  # hands off after a move: longer the smaller the error is; judgement
COMES_BACK_F = 8.0          # what a dome must come nearer by to count as coming back by itself: judgement
REOPEN_F = (10.0, 20.0, 45.0)   # least, usual and most by which a choked fire gets its air ahead of the target: judgement
CLOSE_F = (15.0, 50.0, 70.0)     # least, usual and most by which wide vents are closed ahead of it: common practice, 25 to 50
ANSWERS_IN_MIN = 7.0        # after which the air given back shows: judgement, between dial lag and a fire's answer
NEAR_F, LAG_MIN = 12.0, 2.0     # a look is due before the dome comes nearer than this; lag of the dial and of a hand
LOOK_MIN = (4.0, 10.0)      # no look is asked for sooner or later than this on the way: judgement
EARLY = 0.6                 # of the time until a turn is due, after which one looks: judgement
SLOW_F_PER_MIN = 1.0        # a dome slower than this needs no look of its own: judgement


def look_in(over_f: float | None, rate: float | None, move_in_min: float | None = None) -> float | None:
    """Minutes until the dome needs the next look: when the vents may be worth moving, before it comes near the target, or
    soon when it runs away."""
    if over_f is None or rate is None and move_in_min is None:
        return None
    soonest, latest = LOOK_MIN
    if move_in_min is not None:
        latest = max(soonest, min(latest, move_in_min))
    if not rate or abs(rate) < SLOW_F_PER_MIN:
        return latest
    if over_f * rate > 0:
        return 0.5 * LOOK_MIN[1]
    return float(round(max(soonest, min(latest, (abs(over_f) - NEAR_F) / abs(rate) - LAG_MIN))))


def move_in(ahead_f: float, moves: float, moved_ago: float | None) -> float | None:
    """Minutes until the vents are worth moving again: 0 now, None when nothing is off.

    The smaller the error and the more moves were made, the longer the hands stay off.
    """
    dearer = DEARER_F * max(0.0, moves - FREE_MOVES) + DEAREST_F * max(0.0, moves - MOST_MOVES)
    if abs(ahead_f) < LEAST_OFF_F + dearer:
        return None
    quiet = QUIET_MIN + QUIET_FOR_F * max(0.0, BIG_OFF_F - abs(ahead_f))
    return 0.0 if moved_ago is None else float(max(0, round(quiet - moved_ago)))


def left_over(ahead: tuple[float, ...], over: float) -> float:
    """What is left to be taken away: a dome that comes back by itself is given the longest look ahead.

    Hot walls keep a dome up while the fire below them already shrinks; closing further then puts it out.
    """
    _, soon, late = ahead
    return late if over * soon > 0.0 and abs(late) < abs(over) - COMES_BACK_F else soon


def over_for(readings: Readings, target_f: float, now: float) -> float | None:
    """Minutes since a reading was last no more than NEAR_F over the target; None when none was or nothing is over now."""
    near = [minute for minute, dome in readings if dome <= target_f + NEAR_F]
    return now - near[-1] if near and readings[-1][1] > target_f + NEAR_F else None


def in_fives(degrees_f: float) -> float:
    """To the nearest 5 °F, as a dial is read."""
    return 5.0 * round(degrees_f / 5.0)


def reopen_ahead(rate: float | None) -> float:
    """°F above the target at which a choked fire gets its air back, the dome moving at that rate."""
    least, usual, most = REOPEN_F
    return usual if rate is None or rate >= 0 else round(max(least, min(most, -rate * ANSWERS_IN_MIN)))


def close_ahead(rate: float | None) -> float:
    """°F below the target at which vents that were opened wide are closed down, the dome moving at that rate."""
    least, usual, most = CLOSE_F
    return usual if rate is None else max(least, min(most, least + rate * ANSWERS_IN_MIN))


def reopen_in(until_f: float, rate: float | None) -> float | None:
    """Minutes until a choked fire needs the next look: well before it gets its air back, as a dying fire falls ever faster;
    the same of wide vents, upside down."""
    if rate is None:
        return None
    return look_before(until_f / -rate) if rate < 0 else 0.5 * LOOK_MIN[1]


def look_before(minutes: float) -> float:
    """When to look for what is due in so many minutes."""
    soonest, latest = LOOK_MIN
    return float(round(max(soonest, min(latest, EARLY * minutes))))
