"""Which of several cookers the reply is for: the one in the worst trouble, else the one named first."""

from advisor.facts import Value
from advisor.language.lexicon import Lexicon

ALARM, OUT, TROUBLED = 1000.0, 300.0, 1.0


def urgency(facts: dict[str, Value], lexicon: Lexicon) -> float:
    """The trouble in the facts of one cooker, for comparing with another's."""
    if any(facts.get(alarm) is True for alarm in lexicon.alarms):
        return ALARM
    if facts.get("fire_out") is True:
        return OUT
    over = facts.get("over_f", 0.0)
    if isinstance(facts.get("dome_f"), float) and isinstance(facts.get("target_f"), float):
        over = facts["dome_f"] - facts["target_f"]
    return abs(over) + (TROUBLED if facts.get("trend") in ("rising", "swinging") else 0.0)
