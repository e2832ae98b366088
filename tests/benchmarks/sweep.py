"""Random situations through the whole advice, against the laws that must always hold.

    python tests/benchmarks/sweep.py [HOW_MANY] [SEED]      (100,000 unless told)

Prints one line a law with the number of breaches, the first breach of each, and what the replies were made of.
Exit status 1 when any law was broken.
"""

import multiprocessing
import random
import re
import sys
import time
from collections import Counter
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from advisor.advice import Adviser
from advisor.composing import Turn, compose
from advisor.profile import CookerProfile
from advisor.rulebook.loader import Rulebook, read_rulebook
from advisor.situation import Situation
from advisor.vocabulary import FactDefinition, Vocabulary
from advisor.wording import Wording

CORE = ("dome_f", "target_f", "over_f", "trend", "bottom_vent", "top_vent", "lit_ago_min", "vents_moved_ago_min", "food_on",
        "smoke", "smoke_amount", "lid_open", "flames", "grease_fire", "fire_out", "choked", "heat_soaked", "indoors")
HANDS_OFF_MIN = 5.0
OFF_F, NOT_COOKING = 20.0, {"laying", "lighting", "shutting_down"}


def any_value(definition: FactDefinition, dice: random.Random):
    """A believable value, round ones often: boundaries are where rules go wrong."""
    if definition.type == "flag":
        return dice.random() < 0.5
    if definition.type == "choice":
        return dice.choice(definition.values)
    if definition.type == "text":
        return dice.choice(["ribs", "chicken", "pork shoulder"])
    if definition.type == "fraction":
        return dice.choice([0.0, 0.0, 0.02, 0.05, 0.25, 0.5, 1.0, round(dice.random(), 3)])
    low, high = max(definition.bounds[0], -150), min(definition.bounds[1], 800)
    value = dice.uniform(low, high) if dice.random() < 0.5 else 5 * round(dice.uniform(low, high) / 5)
    return float(min(max(value, definition.bounds[0]), definition.bounds[1]))


def any_situation(vocabulary: Vocabulary, dice: random.Random) -> dict:
    names = dice.sample(CORE, dice.randint(0, 7))
    names += dice.sample(sorted(set(vocabulary.told) - vocabulary.for_one_message), dice.randint(0, 5))
    facts = {name: any_value(vocabulary.told[name], dice) for name in dict.fromkeys(names)}
    if dice.random() < 0.5 and "dome_f" in facts and "target_f" in facts:
        facts["dome_f"] = min(1300.0, max(-60.0, facts["target_f"] + dice.choice([-100, -40, -12, 0, 10, 40, 100, 200])))
    return facts


def breaches(facts: dict, rulebook: Rulebook, adviser: Adviser) -> tuple[list[str], str]:
    """Laws broken by the reply to one situation, and what kind of reply it was."""
    vocabulary, acts = rulebook.vocabulary, rulebook.catalogue.acts
    wording = Wording(vocabulary)
    situation = Situation().tell(facts, "said", vocabulary, 0.0)
    advice = adviser.advise(situation, 0.0, wording)
    question = advice.question
    if not advice.plan.steps and question is None:
        question = adviser.opening_question(situation, advice, wording)
    reply = compose(Turn({}, {}), "", advice, question, rulebook.catalogue, wording)
    broken = []
    here = {step.act for step in reply.steps}
    if any(set(acts[act].against) & set(segment) for segment in _segments(reply) for act in segment):
        broken.append("contradiction: acts against one another")
    broken += _vent_breaches(reply, facts, advice)
    levels = {caution.id: caution.level for caution in reply.cautions}
    if any(acts[act].opens_lid for act in here) and levels.get("open-a-crack-first") != "danger":
        broken.append("danger without caution: lid")
    starved = advice.facts.get("starved")
    dangers = [facts.get(name) is True for name in ("grease_fire", "indoors", "co_symptoms")]
    if (any(dangers) or starved and starved.value is True) and "danger" not in levels.values():
        broken.append("danger without caution: situation")
    if reply.text.count("?") > 1:
        broken.append("more than one question")
    if not (reply.steps or reply.asks or reply.text):
        broken.append("nothing to go on")
    off = abs(reply.situation.get("over_f") or 0.0) >= OFF_F
    if off and not reply.steps and facts.get("stage") not in NOT_COOKING and not facts.get("fire_out"):
        broken.append("off its target and nothing to do")
    if re.search(r"[{}]|\bNone\b|\bnan\b", reply.text):
        broken.append("text not filled in")
    kind = "steps" if reply.steps else "question" if reply.asks else "leave it alone"
    return broken, kind


def _segments(reply) -> list[list[str]]:
    """Acts to be done in one go: a wait or a condition begins the next."""
    segments = [[]]
    for step in reply.steps:
        if step.when:
            segments.append([])
        segments[-1].append(step.act)
        if step.wait_min:
            segments.append([])
    return segments


def _vent_breaches(reply, facts: dict, advice) -> list[str]:
    """One vent both ways without a wait; a vent moved before the last move has shown."""
    broken, moved, since = [], {}, facts.get("vents_moved_ago_min", HANDS_OFF_MIN)
    urgent = any(firing.rule.then.standing in ("emergency", "safety") for firing in advice.plan.chosen)
    for step in reply.steps:
        if step.act == "set_vent":
            vent, opening = step.parameters["vent"], step.parameters["opening"]
            if moved.get(vent, opening) != opening:
                broken.append("contradiction: one vent both ways")
            moved[vent] = opening
            if since < HANDS_OFF_MIN - 0.1 and not urgent:
                broken.append("a vent moved too soon")
        if step.wait_min:
            moved.clear()
            since += step.wait_min
    return broken


def sweep(job: tuple[int, int]) -> tuple[Counter, dict, Counter]:
    """One worker's share: breaches counted, the first of each, kinds of reply."""
    seed, count = job
    dice, rulebook = random.Random(seed), read_rulebook()
    adviser = Adviser(rulebook, CookerProfile())
    counts, first, kinds = Counter(), {}, Counter()
    for _ in range(count):
        facts = any_situation(rulebook.vocabulary, dice)
        try:
            broken, kind = breaches(facts, rulebook, adviser)
        except Exception as error:  # noqa: BLE001  a crash of any kind is what the sweep looks for
            broken, kind = [f"crash: {type(error).__name__}: {error}"], "crash"
        kinds[kind] += 1
        for law in broken:
            counts[law] += 1
            first.setdefault(law, facts)
    return counts, first, kinds


def main() -> int:
    how_many = int(sys.argv[1]) if len(sys.argv) > 1 else 100_000
    seed = int(sys.argv[2]) if len(sys.argv) > 2 else 1
    workers = multiprocessing.cpu_count()
    started = time.perf_counter()
    with multiprocessing.Pool(workers) as pool:
        parts = pool.map(sweep, [(seed * 1000 + n, how_many // workers) for n in range(workers)])
    counts, kinds, first = Counter(), Counter(), {}
    for part_counts, part_first, part_kinds in parts:
        counts += part_counts
        kinds += part_kinds
        first = {**part_first, **first}
    print(f"{sum(kinds.values())} situations, seed {seed}, {time.perf_counter() - started:.0f} s")
    print("replies: " + ", ".join(f"{kind} {number}" for kind, number in kinds.most_common()))
    print(f"laws broken: {sum(counts.values())}")
    for law, number in counts.most_common():
        print(f"  {number:6} {law}\n         first: {first[law]}")
    return 1 if counts else 0


if __name__ == "__main__":
    sys.exit(main())
