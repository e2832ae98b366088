"""The advice in closed loop: its own words and steps through `pipe`, on cookers it is not told about.

    python tests/closed_loop/run.py [--cookers 20] [--kinds ash,wind] [--policy advised,recipe] [--width 1.6] [--seed 5]
        [--world first|second|both] [--hands strict,whole,silent,often]

Each kind of trouble is met by `cookers` cookers drawn from a world's population; policies start from the same states.
"""

import argparse
import copy
import multiprocessing
import sys
import time
from pathlib import Path

import numpy as np

sys.path[:0] = [str(Path(__file__).resolve().parent), str(Path(__file__).resolve().parents[2])]

import advised
import measures
import others
import troubles

from advisor.rulebook.loader import read_rulebook

RULEBOOK = read_rulebook()  # once, before the processes part
MINUTES, LONGER_MIN = 120, 30   # the measures take two hours; half an hour more shows whether the last stay lasts
POLICIES = ("advised", "alone", "chase", "recipe", "perfect")


def episode(name: str, count: int, width: float, seed: int, policies: tuple[str, ...], kind: str,
            which: str = "first", hands: tuple[str, ...] = advised.HANDS, forecasts: bool = True) -> dict:
    """One kind of trouble under the policies asked for: {policy: Measured}, and forecasts held."""
    trouble = next(one for one in troubles.TROUBLES if one.name == name)
    world, making = troubles.start(trouble, count, width, seed, kind, which)
    found: dict = {"n": world.n, "target_f": making.target_f, "start": world.truth() - making.target_f}
    for policy in policies:
        own = copy.deepcopy(world)
        if policy == "advised":
            path, owners = advised.advise_all(RULEBOOK, trouble, making, own, MINUTES + LONGER_MIN, hands, forecasts)
            found["forecasts"] = judged(owners, path, own, making.target_f)
            found["paths"], found["talks"] = path, [owner.talk for owner in owners]
            found["hands"] = [owner.hands for owner in owners]
        elif policy == "perfect":
            path = others.perfect(making, own, MINUTES + LONGER_MIN)
        else:
            others_hands = {"alone": others.leave_alone, "chase": others.chase, "recipe": others.recipe}[policy](making)
            path = others.drive(own, MINUTES + LONGER_MIN, others_hands)
        lost = ~own.alive() if policy != "perfect" else np.zeros(own.n, bool)
        found[policy] = measures.measure(path[:MINUTES + 1 + LONGER_MIN], making.target_f, own.log, lost)
        found[policy].degree_hours = np.abs(path[:MINUTES] - making.target_f).sum(axis=0) / 60.0
    return found


def _episode(job: tuple) -> dict:
    return episode(*job)


def judged(owners: list, path: np.ndarray, world, target_f: np.ndarray) -> list[tuple[float, float, float, float, float]]:
    """(low, likely, high, confidence, what came) of every forecast made in the first ninety minutes."""
    rows = []
    for owner in owners:
        dial = path[:, [owner.i]] + world.bias_f[owner.i]
        for minute, said in owner.forecasts:
            if minute <= MINUTES - 30:
                came = measures.first_stay(dial[minute:], target_f[[owner.i]], measures.FORECAST_STAY_MIN)[0]
                rows.append((said["low_min"], said["likely_min"], said["high_min"], said["confidence"], came))
    return rows


def line(name: str, m: measures.Measured) -> str:
    return (f"  {name:9} back {_middle(m.back_min):>4} min (never {np.isinf(m.back_min).mean():4.0%})  "
            f"degree-hours {np.median(m.degree_hours):5.1f}  under {np.median(m.undershoot_f):4.0f}  moves {np.median(m.moves):3.0f}"
            f" (most {m.moves.max()})  lids {m.lids.mean():.1f}  lost {m.lost.sum()}  flashbacks {m.flashes.sum()}")


def _middle(minutes: np.ndarray) -> str:
    value = np.median(minutes)
    return "-" if np.isinf(value) else f"{value:.0f}"


def compared(found: dict) -> str:
    """Ratios to perfect knowledge, and how often better than the recipe."""
    mine, best, card = found["advised"], found["perfect"], found["recipe"]
    time_ratio = _capped(np.median(mine.back_min)) / max(1.0, _capped(np.median(best.back_min)))
    better = (mine.degree_hours <= card.degree_hours) & (mine.lost <= card.lost)
    return (f"  to perfect knowledge: time {time_ratio:.2f}, degree-hours "
            f"{np.median(mine.degree_hours) / np.median(best.degree_hours):.2f}; better than the recipe {better.mean():.0%}")


def _capped(minutes: float) -> float:
    return min(minutes, float(MINUTES))


def held(rows: list) -> str:
    rows = np.array(rows)
    if not len(rows):
        return "no forecasts"
    low, likely, high, sure, came = rows.T
    came = np.minimum(came, MINUTES)
    inside = (low - 0.5 <= came) & (came <= high + 0.5)
    return (f"{len(rows)} forecasts: held {inside.mean():.0%} (those that say 80 %: {_share(inside[sure >= 0.8])} of "
            f"{(sure >= 0.8).sum()}), too early {(came < low - 0.5).mean():.0%}, too late {(came > high + 0.5).mean():.0%}, "
            f"likely off by {np.median(np.abs(likely - came)):.0f} min")


def _share(flags: np.ndarray) -> str:
    return f"{flags.mean():.0%}" if len(flags) else "-"


def main(options: argparse.Namespace) -> None:
    began = time.perf_counter()
    wanted = [w.strip() for w in options.kinds.split(",")] if options.kinds else [""]
    names = [t.name for t in troubles.TROUBLES if any(w in t.name for w in wanted)]
    worlds = ("first", "second") if options.world == "both" else (options.world,)
    policies = tuple(options.policy.split(",")) if options.policy else POLICIES
    hands = tuple(options.hands.split(","))
    pool = multiprocessing.Pool(options.processes)
    for world in worlds:
        print(f"=== {world} world")
        jobs = [(name, options.cookers, options.width, options.seed, policies, options.cooker, world, hands,
                 not options.plain) for name in names]
        report(names, pool.imap(_episode, jobs), policies)
    pool.terminate()
    print(f"{time.perf_counter() - began:.0f} s")


def report(names: list[str], episodes, policies: tuple[str, ...]) -> None:
    """Print each kind of trouble as it comes, and all together."""
    totals: dict = {}
    forecasts: list = []
    by_hands: dict = {}
    for name, found in zip(names, episodes, strict=True):
        if not found["n"]:
            print(f"{name}: no cooker got into it")
            continue
        print(f"{name} ({found['n']} cookers, off by {np.median(found['start']):.0f} °F at the start)")
        for policy in policies:
            print(line(policy, found[policy]))
            totals[policy] = totals[policy].joined(found[policy]) if policy in totals else found[policy]
        for name_of_hands in sorted(set(found.get("hands", ()))):
            part = found["advised"].part(np.array(found["hands"]) == name_of_hands)
            by_hands[name_of_hands] = by_hands[name_of_hands].joined(part) if name_of_hands in by_hands else part
        if len(policies) == len(POLICIES):
            print(compared(found))
        if "forecasts" in found:
            print(f"  {held(found['forecasts'])}", flush=True)
            forecasts += found["forecasts"]
    print("ALL")
    for policy in policies:
        print(line(policy, totals[policy]))
    for name, part in by_hands.items():
        print(line(f"..{name}", part))
    if len(policies) == len(POLICIES):
        print(compared(totals))
    if forecasts:
        print(f"  {held(forecasts)}")



if __name__ == "__main__":
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--cookers", type=int, default=20)
    parser.add_argument("--kinds", default="")
    parser.add_argument("--policy", default="")
    parser.add_argument("--width", type=float, default=1.0, help="1.6 reaches outside the ranges the model samples")
    parser.add_argument("--seed", type=int, default=5)
    parser.add_argument("--cooker", default="large")
    parser.add_argument("--world", choices=("first", "second", "both"), default="first")
    parser.add_argument("--hands", default=",".join(advised.HANDS), help="taken in turn by the cookers of a kind")
    parser.add_argument("--plain", action="store_true", help="by rules and chart alone, without the thermal model: quick")
    parser.add_argument("--processes", type=int, default=2)
    main(parser.parse_args())
