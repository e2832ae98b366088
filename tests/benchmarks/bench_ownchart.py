"""How good a vent chart of one's own is after 0, 3, 6 and 12 cooks, on cookers it was not made on.

    python tests/benchmarks/bench_ownchart.py [--cookers 60] [--seed 5] [--only large,wide]

Each cooker cooks twelve times on days that differ in wind, charcoal, air, ash and target; readings are noisy, rounded to
5 °F and off by the dial's own error, hands a few per cent off. Then, on a fresh day, with the ceramic warm and the dome at its
target, the top vent is put where the chart says. "First setting": how far off the target the dial, read to 5 °F, stands an
hour later. Only temperatures that the cooker can hold on that day with the top between 0.02 and wide open are judged.
"""

import argparse
import sys
import time
import warnings
from collections.abc import Callable
from pathlib import Path

import numpy as np

sys.path[:0] = [str(Path(__file__).resolve().parents[1] / "ownchart"), str(Path(__file__).resolve().parents[2])]

import physical_cooks as physical
import plain_cooks as plain
from owners import MARK_F, TARGETS

from advisor.ownchart.chart import chart_of
from advisor.profile import CookerProfile
from advisor.rulebook.loader import read_rulebook
from advisor.ventchart import holding, opening_for

COOKS, BACK_F, DAYS, OTHER_DAYS = (0, 1, 3, 6, 12), 15.0, 2, 8
TRADE = read_rulebook().catalogue.vent_chart
Setting = Callable[[int, float], float]


class Setup:
    """A world to judge on: cookers, how one cooks on them, how they stand at a target on a fresh day."""

    def __init__(self, name: str, past: Callable, soaked: Callable, n: int, seed: int, kind: str = "large") -> None:
        self.name, self.n, self.kind = name, n, kind
        self.cooks = [past(seed + 100 + k) for k in range(max(COOKS))]
        self.soaked, self.seed = soaked, seed

    def judged_days(self):
        """Fresh days, made anew for every setting tried, so that all meet the same."""
        for number in range(DAYS):
            for target in TARGETS:
                yield self.soaked(np.full(self.n, target), self.seed + 10_000 + 1000 * number + int(target))

    def best(self) -> Setting:
        """The ceiling: for each cooker and target the setting that was right in the middle of other days."""
        with warnings.catch_warnings():
            warnings.simplefilter("ignore", RuntimeWarning)  # a cooker that never held a target gives no middle
            middle = {}
            for target in TARGETS:
                days = (self.soaked(np.full(self.n, target), self.seed + 50_000 + 1000 * k + int(target)) for k in range(OTHER_DAYS))
                right = np.array([np.where(day.held, day.right, np.nan) for day in days])
                middle[target] = np.nan_to_num(np.nanmedian(right, axis=0), nan=0.05)
        return lambda i, target: middle[target][i]


def judge(setup: Setup, setting: Setting, band: Callable | None = None) -> dict[str, float]:
    """Shares over all cookers, targets and days; `cookers`: those that are back at most targets and days."""
    back, inside, calm, by_cooker = [], [], [], [[] for _ in range(setup.n)]
    for day in setup.judged_days():
        opening = np.array([setting(i, day.target[i]) for i in range(setup.n)])
        shows = np.round(day.first_setting(opening) / MARK_F) * MARK_F
        windy = getattr(day.day, "wind", np.zeros(setup.n)) > physical.STRONG_M_S
        for i in np.flatnonzero(day.held):
            hit = abs(shows[i]) <= BACK_F
            back.append(hit)
            by_cooker[i].append(hit)
            calm += [] if windy[i] else [hit]
            if band:
                low, high = band(i, day.target[i])
                inside.append(low * 0.999 <= day.right[i] <= high * 1.001)
    return {"back": np.mean(back), "calm": np.mean(calm), "cookers": np.mean([np.mean(h) > 0.5 for h in by_cooker if h]),
            "band": np.mean(inside) if band else np.nan, "judged": len(back)}


def line(name: str, found: dict[str, float]) -> str:
    return (f"  {name:22} {found['back']:6.0%} {found['calm']:14.0%} {found['cookers']:16.0%} "
            + (f"{found['band']:10.0%}" if found["band"] == found["band"] else f"{'-':>10}"))


def report(setup: Setup) -> None:
    print(f"{setup.name}\n  {'setting by':22} {'back':>6} {'no strong wind':>14} {'most of the time':>16} {'band holds':>10}")
    print(line("the trade's chart", judge(setup, lambda i, target: opening_for(TRADE, target))), flush=True)
    for count in COOKS:
        print(line(f"own chart, {count} cooks", after(setup, count)), flush=True)
    found = judge(setup, setup.best())
    print(line("best single setting", found) + f"   ({found['judged']} settings judged)", flush=True)


def after(setup: Setup, count: int) -> dict[str, float]:
    """How the charts fare that rest on the first `count` cooks."""
    charts = [chart_of([cooks[i] for cooks in setup.cooks[:count]], TRADE, setup.kind) for i in range(setup.n)]
    profiles = [CookerProfile(chart=chart.to_profile()) for chart in charts]
    bands = [{one.dome_f: (one.low, one.high) for one in chart.lines} for chart in charts]
    return judge(setup, lambda i, target: holding(TRADE, profiles[i], target).opening, lambda i, target: bands[i][target])


def setups(n: int, seed: int) -> dict[str, Callable[[], Setup]]:
    def physically(name: str, kind: str = "large", width: float = 1.0, same: float = physical.SAME_BRAND) -> Callable[[], Setup]:
        z = physical.draw_z(kind, n, np.random.default_rng(seed), width)
        return lambda: Setup(name, lambda s: physical.past_cooks(z, s, kind, same),
                             lambda target, s: physical.soaked(z, target, s, kind, same), n, seed, kind)

    maps = plain.Maps.drawn(n, np.random.default_rng(seed))
    return {
        "large": physically("large cookers"),
        "small": physically("small cookers", "small"),
        "wide": physically("large cookers, half outside the sampled ranges (width 1.6)", width=1.6),
        "bags": physically("large cookers, charcoal and lay of the fire new each time", same=0.0),
        "plain": lambda: Setup("a plain world: a straight line in the logarithm, drift, no physics",
                               lambda s: plain.past_cooks(maps, s), lambda target, s: plain.soaked(maps, target, s), n, seed),
    }


def main(options: argparse.Namespace) -> None:
    began = time.perf_counter()
    for name, make in setups(options.cookers, options.seed).items():
        if not options.only or name in options.only.split(","):
            report(make())
    print(f"{time.perf_counter() - began:.0f} s")


if __name__ == "__main__":
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--cookers", type=int, default=60)
    parser.add_argument("--seed", type=int, default=5)
    parser.add_argument("--only", default="", help="some of large, small, wide, bags, plain")
    main(parser.parse_args())
