"""The hand at the vents in a forecast: it carries out a program of deeds, then goes on with small moves.

Each column has its own hand, which looks at its own dome; so a deed that waits for the dome comes when that dome
gets there.
"""

from __future__ import annotations

import numpy as np

from .known import Deed
from .state import Controls

LOOKS_MIN = (0.0, 5.0, 10.0, 15.0, 20.0, 30.0, 40.0, 55.0, 70.0, 85.0, 100.0)
LEAST_TOP = 0.02  # a top vent shut further than this starves the fire; common practice, no published source
GAIN_PER_F = 0.010  # of the opening's logarithm for each F of error; assumed, between what model and trade say
AHEAD_MIN = 10.0  # how far a hand looks along the dome's present pace
BAND_F = 8.0  # errors within this are left alone; common practice, no published source
MOST_LOG = 0.45  # largest move of one look: a third of the opening; common practice, no published source


class Hand:
    """Hands of some columns of a run. target_f: what they steer for once the program is through."""

    def __init__(self, program: list[Deed], columns: np.ndarray, target_f: float, offset_f: np.ndarray):
        self.program, self.columns, self.target_f, self.offset_f = program, columns, target_f, offset_f
        self.next = np.zeros(len(columns), int)
        self.ready = np.full(len(columns), program[0].after_min if program else 0.0)
        self.seen_f, self.seen_min = None, 0.0
        sure = np.cumsum([deed.after_min for deed in program])
        self.looks_min = tuple(sorted({*LOOKS_MIN, *(float(t) for t in sure)}))

    def act(self, minute: float, shown_f: np.ndarray, u: Controls) -> tuple[Controls, np.ndarray] | None:
        """Controls after a look at a minute, and which columns burp their lid; None when nothing is done."""
        reads = shown_f[self.columns] + self.offset_f
        bottom, top = (np.array(np.broadcast_to(v, shown_f.shape), float) for v in (u.bottom, u.top))
        burp = np.zeros(shown_f.shape, bool)
        moved = False
        for number, deed in enumerate(self.program):
            moved |= self._carry_out(number, deed, minute, reads, bottom, top, burp)
        moved |= self._steer(minute, reads, top)
        return (Controls(bottom, top, u.crack, u.wind), burp) if moved else None

    def _carry_out(self, number, deed, minute, reads, bottom, top, burp) -> bool:
        turn = (self.next == number) & (self.ready <= minute + 1e-6)
        due = turn.copy()
        if deed.at_most_f is not None:
            due &= reads <= deed.at_most_f
        if deed.at_least_f is not None:
            due &= reads >= deed.at_least_f
        own = self.columns[due]
        for opening, wanted in ((bottom, deed.bottom), (top, deed.top)):
            if wanted is not None:
                opening[own] = wanted
        burp[own] = burp[own] | deed.burp
        past = turn if deed.or_never else due
        after = self.program[number + 1].after_min if number + 1 < len(self.program) else AHEAD_MIN
        self.next[past], self.ready[past] = number + 1, minute + after
        return bool(due.any())

    def _steer(self, minute, reads, top) -> bool:
        """One small move of the top where the program is through and the dome does not come home by itself."""
        span = minute - self.seen_min
        pace = (reads - self.seen_f) / span if self.seen_f is not None and span > 4.0 else np.zeros(len(reads))
        if span > 4.0 or self.seen_f is None:
            self.seen_f, self.seen_min = reads.copy(), minute
        error = reads - self.target_f
        ahead = error + np.clip(AHEAD_MIN * pace, -30.0, 30.0)
        off = (self.next == len(self.program)) & (self.ready <= minute + 1e-6)
        off &= (np.abs(error) > BAND_F) & (np.abs(ahead) > BAND_F) & (error * ahead > 0.0)
        own = self.columns[off]
        move = np.clip(-GAIN_PER_F * ahead[off], -MOST_LOG, MOST_LOG)
        top[own] = np.clip(np.maximum(top[own], LEAST_TOP) * np.exp(move), LEAST_TOP, 1.0)
        self.ready[off] = minute + AHEAD_MIN
        return bool(off.any())
