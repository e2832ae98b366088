"""A dome on its way out of the band round the target: about to overshoot, dying away, or drifting.

It decides by a straight line through the last minutes, drawn on: a steep one through few minutes not far, a gentle one
through many minutes further. What stands off the target for long without turning back is drift.
"""

from advisor.watching.lines import Line
from advisor.watching.scene import Kind, Scene, Sighting

BAND_F = 25.0            # outside this a cook is in trouble; the trade calls 10 to 15 °F near enough: judgement
# (minutes looked at, minutes drawn on, °F off at least: nearer the target nothing is on its way out). A fire answers within about ten minutes of a move, walls take an hour (judgement,
# borne out by tests/benchmarks/bench_watch.py).
LOOKS = ((2.0, 4.0, 10.0), (3.0, 5.0, 10.0), (6.0, 8.0, 10.0), (12.0, 12.0, 10.0), (25.0, 25.0, 8.0))
TELLING_MIN = 6.0        # a pace of so many minutes can be told to a person
SURE = 3.0               # a slope has to be so many times its own doubt
CLIMB_F_PER_MIN = 2.0    # faster than this it is still warming up, and overshoots from below
EASES = 0.8              # a climb whose last minutes have less than this share of its pace flattens out: judgement
OFF_F, OFF_MIN = 18.0, 8.0          # off by so much for so long is drift: a step beyond "near enough" (common practice: 15)
BACK_F_PER_MIN = 0.25    # turning back at this pace it needs nobody


def hot(scene: Scene) -> Sighting | None:
    """Leaving upward."""
    return _leaving(scene, 1.0)


def cold(scene: Scene) -> Sighting | None:
    """Leaving downward."""
    return _leaving(scene, -1.0)


def off_by(scene: Scene) -> float | None:
    """°F from the aim now, above it positive."""
    line = scene.line(LOOKS[0][0]) or scene.line(LOOKS[1][0]) or scene.line(LOOKS[2][0])
    return None if line is None or scene.aim_f is None else line.level_f - scene.aim_f


def _leaving(scene: Scene, way: float) -> Sighting | None:
    off = off_by(scene)
    if off is None or scene.settling:
        return None
    for looked, ahead, least in LOOKS:
        line = scene.line(looked)
        if off * way >= BAND_F and looked < TELLING_MIN:
            continue  # out already: a wavering of two minutes says nothing new
        if line and _runs_out(line, scene.aim_f, off * way, way, ahead, least) and not _eases(scene, off, way):
            told = line if looked >= TELLING_MIN else scene.line(TELLING_MIN) or line
            return _sighting("overshoot" if way > 0 else "dying", off * way, line, told)
    line = scene.line(OFF_MIN)
    if line and way * off >= OFF_F and way * line.slope > -BACK_F_PER_MIN and _off_for_long(scene, way):
        return _sighting("drift_up" if way > 0 else "drift_down", off * way, line, line)
    return None


def _runs_out(line: Line, aim_f: float, off: float, way: float, ahead: float, least: float) -> bool:
    """Whether the line, drawn on, leaves the band; from below the target only a climb can."""
    off, slope = min(way * (line.level_f - aim_f), off), way * line.slope
    far_enough = off >= least or way > 0 and slope >= CLIMB_F_PER_MIN and -BAND_F < off < 0.0
    return slope > SURE * line.doubt and far_enough and off + slope * ahead >= BAND_F


def _eases(scene: Scene, off: float, way: float) -> bool:
    """A climb from below that has begun to flatten out: somebody closed the vents."""
    late, early = scene.line(LOOKS[2][0]), scene.line(LOOKS[4][0]) or scene.line(LOOKS[3][0])
    return bool(way > 0 and off < 0.0 and late and early and late.slope < EASES * early.slope)


def _off_for_long(scene: Scene, way: float) -> bool:
    """Nearly every reading of the last minutes stands off."""
    last = [way * (value - scene.aim_f) for minute, value in scene.points if minute > scene.now - OFF_MIN]
    return len(last) >= 4 and sum(off >= OFF_F - 5.0 for off in last) >= 0.8 * len(last)


def _sighting(kind: Kind, off_f: float, line: Line, longer: Line) -> Sighting:
    """longer: the line whose pace is told."""
    figures = {"dome_f": line.level_f, "off_f": abs(off_f), "rate": abs(longer.slope)}
    if abs(line.slope) > 0.05 and off_f < BAND_F:
        figures["in_min"] = max(1.0, (BAND_F - off_f) / abs(line.slope))
    return Sighting(kind, off_f, figures)
