"""A probe that has gone silent, lies outside, or stands still. A cook's fire is not to be judged by it then.

Silent: nothing from it for many of its usual gaps, while time goes on. Out: it fell to the air's temperature at once and
stays there. Flat: the very same figure for longer than a fire could hold it.
"""

from dataclasses import dataclass, replace

from advisor.watching.scene import Sighting

SILENT_MIN, SILENT_GAPS = 5.0, 10.0       # at least so long, and so many usual gaps: judgement
OUT_BELOW_F, OUT_FALL_F = 130.0, 80.0     # no charcoal fire that cooks is colder; no fire falls so far at once: judgement
OUT_WITHIN_MIN, OUT_FOR_MIN = 5.0, 6.0    # the fall takes at most so long; a lid is shut again by then
# Held to the last digit for so long, by what the probe shows: marks of 5 °F may hide a steady fire for hours.
FLAT_FINE_F, FLAT_FINE_MIN, FLAT_COARSE_MIN = 1.0, 40.0, 240.0
FLAT_MEAT = 4.0                           # meat stalls: so many times as long


@dataclass(frozen=True)
class ProbeState:
    """What has to be known of a probe from one reading to the next; all times in minutes."""

    at: float
    value_f: float
    gap: float = 0.0            # usual time between readings
    mark_f: float | None = None     # the smallest change it has shown
    same_since: float = 0.0
    peak_f: float = 0.0         # the highest of the last minutes
    peak_at: float = 0.0
    fell_at: float | None = None

    @classmethod
    def first(cls, minute: float, value_f: float) -> "ProbeState":
        return cls(minute, value_f, same_since=minute, peak_f=value_f, peak_at=minute)

    def then(self, minute: float, value_f: float) -> "ProbeState":
        """After the next (thinned) reading."""
        gap = minute - self.at
        changed = abs(value_f - self.value_f)
        mark = self.mark_f if not changed else min(changed, self.mark_f or changed)
        new_peak = value_f >= self.peak_f or minute - self.peak_at > OUT_WITHIN_MIN and self.fell_at is None
        state = replace(self, at=minute, value_f=value_f, gap=gap if not self.gap else 0.8 * self.gap + 0.2 * gap,
                        mark_f=mark, same_since=minute if changed else self.same_since,
                        peak_f=value_f if new_peak else self.peak_f, peak_at=minute if new_peak else self.peak_at)
        out = value_f < OUT_BELOW_F and state.peak_f - value_f >= OUT_FALL_F
        return replace(state, fell_at=(self.fell_at if self.fell_at is not None else minute) if out else None)


def look(name: str, state: ProbeState, now: float) -> Sighting | None:
    """name: dome, grate, meat or ambient."""
    silent = now - state.at
    if silent >= max(SILENT_MIN, SILENT_GAPS * state.gap):
        return Sighting("probe_silent", 0.0, {"for_min": silent})
    if name in ("dome", "grate") and state.fell_at is not None and now - state.fell_at >= OUT_FOR_MIN:
        return Sighting("probe_out", 0.0, {"value_f": state.value_f, "was_f": state.peak_f})
    held = now - state.same_since
    longest = (FLAT_FINE_MIN if state.mark_f and state.mark_f <= FLAT_FINE_F else FLAT_COARSE_MIN)
    if held >= longest * (FLAT_MEAT if name in ("meat", "ambient") else 1.0):
        return Sighting("probe_flat", 0.0, {"value_f": state.value_f, "for_min": held})
    return None
