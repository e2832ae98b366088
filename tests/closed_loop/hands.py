"""What both worlds share: hands that set a vent a few per cent off what they mean to, eyes that read to 5 °F, gusts."""

import numpy as np

NOISE_F, MARK_F = 2.0, 5.0
HAND_ERROR = 0.05   # of an opening's logarithm: how well a hand puts a vent where it means to; assumed


class Hands:
    """Beside a world with n cookers: bottom, top, lid_up (n,); gust, rng, log."""

    def begin(self) -> None:
        self.lid_up = np.zeros(self.n, bool) if self.lid_up is None else self.lid_up
        self.log = self.log or {name: np.zeros(self.n, int) for name in ("moves", "lids", "flashes")}
        self.gusts = np.ones(self.n)

    def blow(self) -> None:
        """The wind of the next minute, as a share of its mean."""
        if self.gust:
            self.gusts = np.clip(0.8 * self.gusts + 0.2 + self.gust * self.rng.normal(0.0, 1.0, self.n), 0.0, 3.0)

    def read(self) -> np.ndarray:
        """What somebody reads off the dial now [F] (n,)."""
        return np.round((self.dial() + self.rng.normal(0.0, NOISE_F, self.n)) / MARK_F) * MARK_F

    def set_vent(self, i: int, vent: str, opening: float) -> None:
        """A hand puts a vent; it counts as a move when it goes anywhere."""
        openings = self.bottom if vent == "bottom" else self.top
        if abs(opening - openings[i]) > 0.1 * max(openings[i], 0.02):
            self.log["moves"][i] += 1
            openings[i] = np.clip(opening * np.exp(HAND_ERROR * self.rng.normal()), 0.0, 1.0)

    def lift_lid(self, i: int, slowly: bool = False) -> None:
        """The lid goes up; on a starved fire that is a flashback unless it was cracked open first."""
        self.log["lids"][i] += 1
        self.log["flashes"][i] += self.starved(i) and not slowly
        self.lid_up[i] = True

    def drop_lid(self, i: int) -> None:
        self.lid_up[i] = False
