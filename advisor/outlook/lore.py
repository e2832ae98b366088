"""What past cooks taught about one cooker: out of its profile for the model, and in words for its owner."""

from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Any

from advisor.profile import CookerProfile
from advisor.yamlfile import write_yaml

if TYPE_CHECKING:
    from advisor.thermal.learn import Cook, LearnedFact

LEARNED_VERSION = 1   # of the block that thermal/learn.py writes; kept here too, as reading that module loads numpy
MUCH = (0.85, 0.15)   # above and below this share of cookers it is "more" or "less than most"
WORTH_SAYING = 0.25   # a top vent that differs by less from the usual is the usual one: what is learned is off by 0.15
FEWEST = 3            # cooks before anything is said: after one or two, leaks learned hardly go with the true ones


def learned_of(profile: CookerProfile) -> Any:
    """The members the model learned, or None. Raises ProfileError when they can't be used."""
    if profile.learned is None:
        return None
    from advisor.thermal.learn import Learned

    return Learned.from_data(profile.learned)


def learn_into(profile: CookerProfile, cook: "Cook") -> CookerProfile:
    """The profile after one more cook. Raises ValueRefused when the cook holds no reading."""
    from advisor.thermal.learn import learn

    return profile.model_copy(update={"learned": learn(cook, learned_of(profile)).to_data()})


def save(profile: CookerProfile, path: Path) -> None:
    """Write the profile file, what was learned included, so that read_profile gives it back."""
    write_yaml(path, profile.model_dump(exclude_none=True))


def lore(profile: CookerProfile, phrases: Mapping[str, str]) -> list[str]:
    """What is worth telling of this cooker, sentence by sentence; nothing before FEWEST cooks.

    Nothing is said of the dial: one that is off looks like a cooker that needs another setting.
    """
    learned = learned_of(profile)
    if learned is None or learned.cooks < FEWEST:
        return []
    from advisor.thermal.learn import facts

    told = {fact.name: fact for fact in facts(learned)}
    lines = [_leak(told["leak"], phrases), _top(told["top_opening"], phrases)]
    if learned.contradicted:
        lines.append(phrases["learned_in_doubt"])
    return [line for line in lines if line]


def _leak(fact: "LearnedFact", phrases: Mapping[str, str]) -> str:
    if MUCH[1] < fact.rank < MUCH[0]:
        return ""
    return phrases["learned_leaks_more" if fact.rank >= MUCH[0] else "learned_leaks_less"]


def _top(fact: "LearnedFact", phrases: Mapping[str, str]) -> str:
    change = fact.likely / fact.usual - 1.0
    if abs(change) < WORTH_SAYING:
        return ""
    key = "learned_top_less" if change < 0 else "learned_top_more"
    return phrases[key].replace("{part}", part_of(abs(change)))


def part_of(share: float) -> str:
    """A share as a cook would say it."""
    parts = ((0.17, "a sixth"), (0.25, "a quarter"), (0.33, "a third"), (0.5, "half"), (0.67, "two thirds"), (1.0, "as much again"))
    return min(parts, key=lambda part: abs(part[0] - share))[1]
