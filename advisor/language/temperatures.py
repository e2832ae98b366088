"""Which fact each temperature serves: the dome's unless its clause names the grate, the meat, a wish or the weather.

Scales are not settled here (scales.py); neither are rates and trends.
"""

from dataclasses import replace
from functools import cached_property

from advisor.language.claims import Claim
from advisor.language.cues import Cues
from advisor.language.differences import BATHS, difference_at
from advisor.language.message import Message
from advisor.language.moods import denied
from advisor.language.patterns import Match
from advisor.language.small_talk import UNHEARD, is_led, is_small_talk
from advisor.language.topics import topic_of
from advisor.language.unread import (
    ASKING,
    is_asked_of,
    is_bare_wish,
    is_error,
    is_heat_to_cook_at,
    is_weather,
    may_be_air,
    may_be_boiling,
    may_be_meat,
    spans_the_danger_zone,
)

LOWEST_BARE_C = 15  # the same from somebody who has said a figure in Celsius
LOWEST_BARE = 32  # a bare figure below this is a count or a clock time, not a reading
OWNERS = {
    "dome_f": "dome_f",
    "grate_f": "grate_f",
    "meat_f": "meat_f",
    "ambient_f": "ambient_f",
    "peak_meat_f": "meat_f",
    "meat_start_f": "meat_f",
}
PLANNED = {"fuel_needed", "timeline", "starters", "vent_setting", "wood_needed"}  # topics before the fire is lit


def temperature_claims(message: Message) -> list[Claim]:
    """Every temperature and difference of the message with the fact it serves, in text order."""
    return _Reader(message).claims()


class _Reader:
    """One pass over a message; remembers the last owner named, for figures that name none."""

    def __init__(self, message: Message) -> None:
        self.message, self.tokens, self.lexicon = message, message.tokens, message.lexicon
        self.cues = Cues(message)
        self.offsets = self.lexicon.differences.find(self.tokens)
        self.last_owner = self.last_fact = ""
        self.scale = next(
            (token.quantity.unit for token in self.tokens if token.quantity and token.quantity.unit),
            message.context.units.temperature if message.context.units else None,
        )
        asks = {"ask", "plan"} & set(message.moods) or {"when", "how", "enough"} & {
            token.text for token in self.tokens
        }
        self.under_way = bool({"been", "now"} & {token.text for token in self.tokens})
        self.planning = bool(asks) and topic_of(message, {}) in PLANNED
        self.lowest = LOWEST_BARE_C if self.scale == "C" else LOWEST_BARE

    def claims(self) -> list[Claim]:
        found = []
        for place, at in enumerate(self.cues.figures):
            if self.message.moods[at] in UNHEARD:
                continue
            claim = difference_at(self.message, self.cues, self.offsets, at) or self._reading(place, at)
            if claim:
                found.append(claim)
        return found + self._equal_targets(found)

    def _equal_targets(self, found: list[Claim]) -> list[Claim]:
        """ "250, which is my target": the dome's figure is the wish as well."""
        cues = self.lexicon.equal_targets.find(self.tokens)
        readings = [claim for claim in found if claim.fact == "dome_f" and not claim.before]
        if not cues or not readings or any(claim.fact == "target_f" for claim in found):
            return []
        cue = cues[-1]
        if denied(self.tokens, cue.start, self.lexicon):
            return []
        ahead = [claim for claim in readings if claim.at < cue.start]
        return [replace(ahead[-1], fact="target_f")] if ahead else []

    @cached_property
    def small_talk(self) -> bool:
        return is_small_talk(self.message)

    def _reading(self, place: int, at: int) -> Claim | None:
        quantity = self.tokens[at].quantity
        cues = self.cues.before(place, at)
        roles = {cue.means for cue in cues} | self._baths(place)
        if "standing" in roles:
            roles.discard("before")
        if "either" in roles:
            roles |= {"grate_f" if any(cue.means == "dome_f" for cue in self.cues.owners) else "dome_f"}
        fact, before = self._decide(place, at, roles)
        is_cold_meat = self.scale == "C" and fact == "meat_f" and "meat_f" in roles  # out of the fridge
        if not fact or not is_cold_meat and (
            quantity.kind == "number"
            and abs(quantity.value) < self.lowest
            and fact in ("dome_f", "target_f", "meat_f", "grate_f", "meat_target_f")
        ):
            return None
        self.last_fact = fact
        if fact in OWNERS:
            self.last_owner = OWNERS[fact]
        return Claim(
            fact,
            quantity.value,
            quantity.unit,
            at,
            quantity.said,
            before=before,
            wide=quantity.span is not None,
            moves=before and fact == "dome_f" and (self.cues.starts_a_move(place, at) or self.cues.was_then(at)),
        )

    def _mentions_meat(self) -> bool:
        return any(cue.means == "meat_f" for cue in self.cues.owners) or any(
            token.text == "fridge" for token in self.tokens
        )

    def _baths(self, place: int) -> set[str]:
        """A lone figure with boiling water or ice anywhere in the message is the test of a thermometer."""
        if len(self.cues.figures) > 1:
            return set()
        return {cue.means for cue in self.cues.owners if cue.means in BATHS}

    def _decide(self, place: int, at: int, roles: set[str]) -> tuple[str | None, bool]:
        """(fact, whether it held earlier only)."""
        if self.cues.ends_a_wished_move(place, at):
            return "target_f", False
        if self.cues.starts_a_move(place, at) and self.cues.starts_a_spanned_wish(place):
            return "dome_f", False
        if (
            ("not_a_reading" in roles and "meat_start_f" not in roles)
            or self.cues.is_change(at)
            or self.cues.is_held(at)
        ):
            return None, False
        for fact in BATHS:
            if fact in roles:
                is_one = fact == "ice_reads_f" or may_be_boiling(self.tokens[at].quantity)
                return (fact if is_one else None), False
        alone = len(self.cues.figures) == 1
        if is_weather(self.message, at, alone) and not roles & {"meat_f", "target_f"}:
            return "ambient_f", False
        after = self.cues.after(place, at, bool(roles - {"before"}))
        if after == "not_a_reading":
            return None, False
        if after == "before":
            roles = roles | {"before"}
        elif after == "meat_f" and roles & {"peak_meat_f", "meat_start_f"} and may_be_meat(self.tokens[at].quantity, self.scale):
            return next(iter(roles & {"peak_meat_f", "meat_start_f"})), False
        elif (after == "ambient_f" and is_error(self.message, at, roles)) or (after and is_asked_of(self.message, at)):
            return None, False
        elif after and not (after == "meat_f" and not may_be_meat(self.tokens[at].quantity, self.scale)):
            return self._target_of(after, roles, at), "before" in roles and after not in ("target_f",)
        if self.cues.is_against(place, at):
            return (None if self.last_fact == "target_f" else "target_f"), False
        if self.cues.was_then(at):
            roles = roles | {"before"}
        if is_asked_of(self.message, at):
            return None, False
        if spans_the_danger_zone(self.message, at):
            return None, False
        for fact in ("peak_meat_f", "meat_start_f"):
            if fact in roles and may_be_meat(self.tokens[at].quantity, self.scale) and self._mentions_meat():
                return fact, False
        wish = roles & {"target_f", "meat_target_f", "cook_at"}
        if wish and "before" in roles and self.cues.starts_a_move(place, at):
            return "dome_f", False  # "want it to come down from 315 to 240"
        if wish and any(cue.means in BATHS for cue in self.cues.owners) and not is_heat_to_cook_at(self.tokens[at].quantity):
            return None, False  # "in boiling water it shows 97, should be 100"
        if wish:
            return self._wish(wish, roles, at), False
        return self._owner(place, at, roles)

    def _target_of(self, after: str, roles: set[str], at: int) -> str:
        if after == "target_f":
            return self._wish({"target_f"}, roles, at)
        wished = roles & {"target_f", "meat_target_f"}
        if wished and after == "meat_f":
            return "meat_target_f"
        return "target_f" if wished and after in ("dome_f", "grate_f") else after

    def _wish(self, wish: set[str], roles: set[str], at: int) -> str:
        if "cook_at" in wish or not may_be_meat(self.tokens[at].quantity, self.scale):
            return "target_f"
        if "meat_target_f" in wish or "meat_f" in roles:
            return "meat_target_f"
        named_pit = roles & {"dome_f", "grate_f"}
        return "meat_target_f" if self._carries_meat(at) and not named_pit else "target_f"

    def _owner(self, place: int, at: int, roles: set[str]) -> tuple[str | None, bool]:
        before = "before" in roles
        if "ambient_f" in roles and may_be_air(self.tokens[at].quantity, self.scale):
            return "ambient_f", before
        if "grate_f" in roles:
            return "grate_f", before
        if "meat_f" in roles and may_be_meat(self.tokens[at].quantity, self.scale):
            return "meat_f", before
        if "dome_f" in roles:
            return "dome_f", before
        if "meat_f" in roles and any(token.text == "probe" for token in self.tokens):
            return "grate_f", before  # too hot for meat
        planned_food = "meat_f" in roles and ("plan" in self.message.moods or self.planning)
        if (
            (planned_food and not self.under_way)
            or (self.planning and not self.under_way and is_bare_wish(self.message, at))
            or self.message.moods[at] == "plan"
            or (self.cues.ends_a_move(place, at) and self.message.moods[at] in ASKING)
        ):
            return "target_f", False
        if self.cues.starts_a_move(place, at):
            return "dome_f", self.message.moods[at] not in ASKING
        if self._carries_meat(at) and may_be_meat(self.tokens[at].quantity, self.scale) and "meat_f" not in roles:
            return "meat_f", before
        if self.tokens[at].quantity.kind != "degrees" and self.small_talk and not is_led(self.message, at):
            return None, False
        return "dome_f", before

    def _carries_meat(self, at: int) -> bool:
        """Whether the talk is still of the meat: its figure came last, or it was named last by itself."""
        named = [
            cue
            for cue in self.cues.owners
            if cue.end <= at
            and cue.means in ("dome_f", "grate_f", "meat_f")
            and self.tokens[cue.start].lemma != "food"
            and not denied(self.tokens, cue.start, self.lexicon)
        ]
        if not named or not self._tells_warmth(named[-1]):
            return self.last_owner == "meat_f"
        return named[-1].means == "meat_f"

    def _tells_warmth(self, cue: Match) -> bool:
        """A name followed by "on" or "in" tells where the food is, not how warm."""
        return not {token.text for token in self.tokens[cue.end : cue.end + 3]} & {
            "on",
            "in",
            "off",
            "goes",
            "went",
        }
