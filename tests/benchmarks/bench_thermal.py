"""Speed of the thermal model, the trade's facts as it has them, and how often its intervals hold.

Run: python tests/benchmarks/bench_thermal.py [cooks]   (cooks: how many for the intervals; 40 unless given)
"""

from __future__ import annotations

import sys
import time
from pathlib import Path

import numpy as np

HERE = Path(__file__).resolve().parent
sys.path[:0] = [str(HERE.parents[1]), str(HERE.parent / "thermal")]

import trade_facts
import twins

from advisor.thermal import choose, ensemble, forecast, hold, population, simulate, state
from advisor.thermal.known import Known, Reading

SETTINGS = [choose.Setting(0.25, top) for top in np.geomspace(0.02, 1.0, 10)]
CHOKES = [choose.Turn(choose.Setting(0.0, 0.0), lead, choose.Setting(0.25, 0.1), burps)
          for lead in (10.0, 20.0, 32.0, 45.0) for burps in range(3)]
OVER = Known(
    275.0,
    (Reading(-20, 290), Reading(-10, 330), Reading(0, 375)),
    bottom=0.25,
    top=0.5,
    lit_ago_min=240,
    soaked=True,
)


def timed(work, times: int = 15) -> tuple[float, float]:
    """(median, worst) milliseconds of some calls, after one to warm up."""
    work()
    spent = []
    for _ in range(times):
        started = time.perf_counter()
        work()
        spent.append(1e3 * (time.perf_counter() - started))
    return float(np.median(spent)), max(spent)


def speed() -> list[str]:
    """Lines of the speed table."""
    gathered = ensemble.gather(OVER)
    works = {
        "gather (history of 20 min)": lambda: ensemble.gather(OVER),
        "plan and idle from an ensemble": lambda: forecast.compare(gathered, [twins.RECIPE, []]),
        "forecast, all of it": lambda: forecast.forecast(OVER, twins.RECIPE),
        "hold_opening": lambda: hold.hold_opening(gathered),
        "left alone, ten settings": lambda: choose.left_alone(gathered, SETTINGS),
        "turned, twelve chokes": lambda: choose.turned(gathered, CHOKES),
    }
    lines = [
        f"{name:34} median {median:6.1f} ms, worst {worst:6.1f} ms"
        for name, (median, worst) in ((name, timed(work)) for name, work in works.items())
    ]
    return [*lines, f"{'12 h of 200 cookers, step 20 s':34} {long_cook():.2f} s"]


def long_cook() -> float:
    """Seconds that twelve hours of 200 cookers with food take."""
    started = time.perf_counter()
    fixed = state.Fixed(population.sample("large", 200, np.random.default_rng(1)), state.Surroundings())
    moves = [
        simulate.Move(0, bottom=1.0, top=1.0, crack=0.3),
        simulate.Move(10, crack=0.0),
        simulate.Move(25, bottom=0.25, top=0.15),
        simulate.Move(60, food_kg=5.0),
    ]
    simulate.run(state.fresh(fixed, 0.1), fixed, moves, 720.0)
    return time.perf_counter() - started


def trade() -> list[str]:
    """Lines of the trade-fact table for the middle large cooker."""
    tops, shown = trade_facts.steady_curve()
    rows = [
        (f"top vent for {goal} F", trade, f"{np.interp(goal, shown, tops):.2f}")
        for goal, trade in (
            (225, "barely open"),
            (250, "a bit more"),
            (275, "a bit more"),
            (300, "a bit more"),
            (325, "about half"),
        )
    ]
    rows += [
        ("half open", "about 325 F", f"{np.interp(0.5, tops, shown):.0f} F"),
        ("fully open", "about 450 F", f"{shown[-1]:.0f} F"),
        ("lid shut to 300 F", "some 15 min", f"{trade_facts.warm_up_min():.0f} min"),
        ("settling within 15 F", "another 15 min", f"{trade_facts.settling_min():.0f} min"),
        ("3 h at 275 F, share of basket", "about a quarter", f"{trade_facts.fuel_share(275.0, 3.0):.2f}"),
        (
            "14 h at 250 F with 6 kg",
            "less than a whole",
            f"{trade_facts.fuel_share(250.0, 14.0, food_kg=6.0):.2f}",
        ),
    ]
    return [f"{name:34} trade {says:18} model {has}" for name, says, has in rows]


def intervals(count: int, width: float) -> str:
    """One line: how often 80 % intervals hold for cookers drawn at a width."""
    held, inside, misses = [], [], []
    for known, plan, after in twins.cooks(count, 77, width):
        for found, (minutes, end) in zip(forecast.forecast(known, plan), after):
            held.append(twins.holds(found, minutes))
            inside.append(found.settles_f[0] <= end <= found.settles_f[2])
            if found.likely_min is not None and np.isfinite(minutes):
                misses.append(abs(found.likely_min - minutes))
    return (
        f"cookers at {width:.1f} x the stated ranges: {len(held)} intervals, "
        f"time back held {np.mean(held):.0%}, "
        f"dome two hours on held {np.mean(inside):.0%}, "
        f"likely time off by {np.median(misses):.0f} min (median)"
    )


def main(count: int) -> None:
    print(
        "\n".join(
            [
                "speed",
                *speed(),
                "",
                "trade facts, middle large cooker",
                *trade(),
                "",
                "80 % intervals",
                intervals(count, 1.0),
                intervals(count, 1.6),
            ]
        )
    )


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 40)
