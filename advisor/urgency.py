"""Which of several cookers needs its cook first."""

from advisor.plan import Plan
from advisor.rulebook.schema import STANDINGS
from advisor.situation import Situation


def urgency(plan: Plan, situation: Situation) -> tuple[bool, int, float]:
    """Larger is more urgent: danger, then the standing of the advice, then how far off the dome is."""
    standings = [STANDINGS.index(firing.rule.then.standing) for firing in plan.chosen]
    over = situation.facts.get("over_f")
    dome, target = situation.facts.get("dome_f"), situation.facts.get("target_f")
    off = abs(float(over.value)) if over else abs(float(dome.value) - float(target.value)) if dome and target else 0.0
    return plan.dangerous, len(STANDINGS) - min(standings, default=len(STANDINGS)), off
