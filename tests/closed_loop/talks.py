"""One episode as a conversation: minute, dome, what was said, the first finding, steps as told, vents.

    python tests/closed_loop/talks.py "well over" [--world second] [--hands strict] [--cookers 2] [--which 0]
"""

import argparse

import run
import troubles


def told(step: dict) -> str:
    figures = [str(step[key]) for key in ("vent", "opening", "times") if step.get(key) is not None]
    when = "".join(f" if {fact} {bounds}" for fact, bounds in (step.get("when") or {}).items())
    wait = f" wait {step['wait_min']:.0f}" if step.get("wait_min") else ""
    return f"{step['act']} {' '.join(figures)}{when}{wait}"


def main(options: argparse.Namespace) -> None:
    name = next(t.name for t in troubles.TROUBLES if options.kind in t.name)
    hands = tuple(options.hands.split(","))
    found = run.episode(name, options.cookers, 1.0, options.seed, ("advised",), "large", options.world, hands,
                        not options.plain)
    i = options.which
    print(name, "target", found["target_f"][i], "hands", found["hands"][i])
    for minute, line, reply in found["talks"][i]:
        rules = [one["rule"] for one in reply["why"]] if options.why else []
        print(f"{minute:4} true {found['paths'][minute, i]:4.0f}", {k: v for k, v in line.items()}, rules)
        print("        ", "; ".join(told(step) for step in reply["steps"]), "| check", reply["check_in_min"],
              "| asks", (reply["asks"] or {}).get("fact"))
    one = found["advised"]
    print("back", one.back_min[i], "degree-hours", one.degree_hours[i].round(1), "moves", one.moves[i], "lost", one.lost[i])


if __name__ == "__main__":
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("kind")
    parser.add_argument("--world", default="first")
    parser.add_argument("--hands", default="strict")
    parser.add_argument("--cookers", type=int, default=2)
    parser.add_argument("--which", type=int, default=0)
    parser.add_argument("--seed", type=int, default=5)
    parser.add_argument("--plain", action="store_true")
    parser.add_argument("--why", action="store_true")
    main(parser.parse_args())
