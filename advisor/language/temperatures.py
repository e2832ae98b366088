"""Which fact each temperature serves: the dome's unless its clause names the grate, the meat, a wish or the weather.

Scales are not settled here (scales.py); neither are rates and trends.
"""

from dataclasses import replace

from advisor.language.claims import Claim
from advisor.language.message import Message
from advisor.language.moods import denied
from advisor.language.patterns import Match
from advisor.language.tokens import Quantity, Token

LOWEST_BARE = 32          # a bare figure below this is a count or a clock time, not a reading
HOTTEST_MEAT = {"F": 212, "C": 100, None: 212}
WIDEST_READING = 2    # "between 40 and 140" is no reading that wavers
HIGHEST_CHANGE = 150      # "dropped 50" is a change, "dropped 250" a careless "dropped to 250"
HIGHEST_ADJECTIVE = 200   # "20 hot" is a difference, "400 hot" a reading
UNHEARD = ("suppose", "elsewhere", "bygone")
ASKING = ("ask", "plan", "later")
OWNERS = {"dome_f": "dome_f", "grate_f": "grate_f", "meat_f": "meat_f", "ambient_f": "ambient_f", "peak_meat_f": "meat_f",
          "meat_start_f": "meat_f"}
NAMES = {"dome_f", "grate_f", "meat_f", "ambient_f", "boiling_reads_f", "ice_reads_f"}
CARRIED = {"dome_f", "grate_f", "meat_f", "ambient_f", "either"}
BATHS = ("boiling_reads_f", "ice_reads_f")
NEED_THEIR_FIGURE = {"for", "at", "to", "is", "on"}  # a cue that ends so must stand right before the figure
COLDEST_COOKER = 25   # a marked figure below this is the weather's
SIGNS = {1: 1.0, -1: -1.0, "by_over": 1.0, "by_under": -1.0}
_PLAIN = {"over", "above", "under", "below", "past", "beneath"}
_LINKS = {"to", "down", "up", "all", "the", "way", "and", "then", "back", ">", "-"}


def temperature_claims(message: Message) -> list[Claim]:
    """Every temperature and difference of the message with the fact it serves, in text order."""
    return _Reader(message).claims()


def _whole_names(cues: list[Match]) -> list[Match]:
    """Cues without the names inside a longer name: "core temp" is no "temp"."""
    names = [cue for cue in cues if cue.means in NAMES]
    return [cue for cue in cues if not (cue.means in NAMES and any(
        other.start <= cue.start and cue.end <= other.end and len(other) > len(cue) for other in names))]


class _Reader:
    """One pass over a message; remembers the last owner named, for figures that name none."""

    def __init__(self, message: Message) -> None:
        self.message, self.tokens, self.lexicon = message, message.tokens, message.lexicon
        self.owners = _whole_names(self.lexicon.owners.find(self.tokens))
        self.right = self.lexicon.after_figures.find(self.tokens)
        self.offsets = self.lexicon.differences.find(self.tokens)
        self.candidates = [at for at in range(len(self.tokens)) if self._is_temperature(at)]
        self.last_owner = ""
        self.used: list[Match] = []

    def claims(self) -> list[Claim]:
        found = []
        for place, at in enumerate(self.candidates):
            if self.message.moods[at] in UNHEARD:
                continue
            claim = self._difference(at) or self._reading(place, at)
            if claim:
                found.append(claim)
        return found + self._equal_targets(found)

    def _equal_targets(self, found: list[Claim]) -> list[Claim]:
        """"250, which is my target": the dome's figure is the wish as well."""
        cues = self.lexicon.equal_targets.find(self.tokens)
        readings = [claim for claim in found if claim.fact == "dome_f" and not claim.before]
        if not cues or not readings or any(claim.fact == "target_f" for claim in found):
            return []
        cue = cues[-1]
        ahead = [claim for claim in readings if claim.at < cue.start]
        return [replace(ahead[-1], fact="target_f")] if ahead else []

    # ---- what is a temperature at all --------------------------------------------------------------------

    def _is_temperature(self, at: int) -> bool:
        quantity = self.tokens[at].quantity
        if quantity is None or quantity.kind not in ("number", "degrees"):
            return False
        if quantity.kind == "degrees":
            return True
        return not self._is_counted(at, quantity)

    def _is_counted(self, at: int, quantity: Quantity) -> bool:
        after = self.tokens[at + 1] if at + 1 < len(self.tokens) else None
        before = self.tokens[at - 1].text if at else ""
        counted = self.lexicon.data["figures"]["counted"]
        if before in ("#", "number", "no", "step", "steps", "cooker", "pit") and quantity.value < 20:
            return True
        return bool(after and (after.text in counted or after.lemma in counted
                               or after.lemma == "food" and quantity.value <= 60))

    # ---- differences -----------------------------------------------------------------------------------------

    def _difference(self, at: int) -> Claim | None:
        quantity = self.tokens[at].quantity
        for match in self.offsets:
            after = match.start == at + 1 and match.means in (1, -1) and self._is_offset(match, quantity)
            before = match.means in ("by_over", "by_under") and self._leads_to(match, at)
            if (after or before) and quantity.value > 0 and self.message.moods[at] != "was":
                return Claim("over_f", SIGNS[match.means] * quantity.value, quantity.unit, at, quantity.said,
                             is_difference=True)
        return None

    def _is_offset(self, match: Match, quantity: Quantity) -> bool:
        word = self.tokens[match.start].text
        return word in _PLAIN or quantity.value < HIGHEST_ADJECTIVE

    # ---- readings ---------------------------------------------------------------------------------------------

    def _reading(self, place: int, at: int) -> Claim | None:
        quantity = self.tokens[at].quantity
        cues = self._cues_before(place, at)
        roles = {cue.means for cue in cues} | self._baths(place)
        if "either" in roles:
            roles |= {"grate_f" if any(cue.means == "dome_f" for cue in self.owners) else "dome_f"}
        fact, before = self._decide(place, at, roles)
        if not fact or (quantity.kind == "number" and abs(quantity.value) < LOWEST_BARE and fact in (
                "dome_f", "target_f", "meat_f", "grate_f", "meat_target_f")):
            return None
        if fact in OWNERS:
            self.last_owner = OWNERS[fact]
        return Claim(fact, quantity.value, quantity.unit, at, quantity.said, before=before,
                     wide=quantity.span is not None)

    def _spans_the_danger_zone(self, at: int) -> bool:
        """"Between 40 and 140" is no reading."""
        span = self.tokens[at].quantity.span
        return bool(span and span[1] > WIDEST_READING * span[0])

    def _mentions_meat(self) -> bool:
        return any(cue.means == "meat_f" for cue in self.owners) or any(token.text == "fridge" for token in self.tokens)

    def _baths(self, place: int) -> set[str]:
        """A lone figure with boiling water or ice anywhere in the message is the test of a thermometer."""
        if len(self.candidates) > 1:
            return set()
        return {cue.means for cue in self.owners if cue.means in BATHS}

    def _decide(self, place: int, at: int, roles: set[str]) -> tuple[str | None, bool]:
        """(fact, whether it held earlier only)."""
        if "not_a_reading" in roles or self._is_change(at):
            return None, False
        for fact in BATHS:
            if fact in roles:
                return fact, False
        quantity = self.tokens[at].quantity
        if quantity.kind == "degrees" and quantity.value < (0 if quantity.unit == "C" else COLDEST_COOKER) \
                and not roles & {"meat_f", "target_f"}:
            return "ambient_f", False
        after = self._cue_after(place, at, bool(roles - {"before"}))
        if after == "not_a_reading":
            return None, False
        if after == "before":
            roles = roles | {"before"}
        elif after == "meat_f" and roles & {"peak_meat_f", "meat_start_f"} and self._may_be_meat(at):
            return next(iter(roles & {"peak_meat_f", "meat_start_f"})), False
        elif after:
            return self._target_of(after, roles, at), "before" in roles and after not in ("target_f",)
        if self._is_against(place, at):
            return "target_f", False
        if self._spans_the_danger_zone(at):
            return None, False
        for fact in ("peak_meat_f", "meat_start_f"):
            if fact in roles and self._may_be_meat(at) and self._mentions_meat():
                return fact, False
        wish = roles & {"target_f", "meat_target_f", "cook_at"}
        if wish:
            return self._wish(wish, roles, at), False
        return self._owner(place, at, roles)

    def _target_of(self, after: str, roles: set[str], at: int) -> str:
        if after == "target_f":
            return self._wish({"target_f"}, roles, at)
        wished = roles & {"target_f", "meat_target_f"}
        if wished and after == "meat_f":
            return "meat_target_f"
        return "target_f" if wished and after == "dome_f" else after

    def _wish(self, wish: set[str], roles: set[str], at: int) -> str:
        if "cook_at" in wish or not self._may_be_meat(at):
            return "target_f"
        if "meat_target_f" in wish or "meat_f" in roles:
            return "meat_target_f"
        named_pit = roles & {"dome_f", "grate_f"}
        return "meat_target_f" if self._carries_meat(at) and not named_pit else "target_f"

    def _owner(self, place: int, at: int, roles: set[str]) -> tuple[str | None, bool]:
        before = "before" in roles
        for fact in ("ambient_f", "grate_f"):
            if fact in roles:
                return fact, before
        if "meat_f" in roles and self._may_be_meat(at):
            return "meat_f", before
        if "dome_f" in roles:
            return "dome_f", before
        planned_food = "meat_f" in roles and "plan" in self.message.moods
        if planned_food or self.message.moods[at] == "plan" or self._ends_a_wished_move(place, at):
            return "target_f", False
        if self._starts_a_move(place, at):
            return "dome_f", self.message.moods[at] not in ASKING
        if self._carries_meat(at) and self._may_be_meat(at) and "meat_f" not in roles:
            return "meat_f", before
        if self._is_small_talk(at):
            return None, False
        return "dome_f", before

    def _is_small_talk(self, at: int) -> bool:
        """A bare figure among words that have nothing to do with a fire ("the 110 stop")."""
        if self.tokens[at].quantity.kind == "degrees" or self.message.context.asked:
            return False
        talk = self.lexicon.talk
        names = {word for name in self.message.context.cookers for word in name.lower().split()}
        strangers = [token for token, mood in zip(self.tokens, self.message.moods, strict=True) if token.kind == "word"
                     and mood not in UNHEARD and not {token.text, token.lemma} & (talk | names)]
        return bool(strangers) and not self._is_about_the_fire()

    def _is_about_the_fire(self) -> bool:
        lexicon = self.lexicon
        return any(book.find(self.tokens) for book in (lexicon.owners, lexicon.phrases, lexicon.openings, lexicon.events,
                                                       lexicon.fire_words))

    def _carries_meat(self, at: int) -> bool:
        """Whether the talk is still of the meat: its figure came last, or it was named last by itself."""
        named = [cue for cue in self.owners if cue.end <= at and cue.means in ("dome_f", "grate_f", "meat_f")
                 and self.tokens[cue.start].lemma != "food" and not denied(self.tokens, cue.start, self.lexicon)]
        if not named or not self._tells_warmth(named[-1]):
            return self.last_owner == "meat_f"
        return named[-1].means == "meat_f"

    def _tells_warmth(self, cue: Match) -> bool:
        """A name followed by "on" or "in" tells where the food is, not how warm."""
        return not {token.text for token in self.tokens[cue.end:cue.end + 3]} & {"on", "in", "off", "goes", "went"}

    def _may_be_meat(self, at: int) -> bool:
        quantity = self.tokens[at].quantity
        return quantity.value <= HOTTEST_MEAT[quantity.unit]

    # ---- cues ------------------------------------------------------------------------------------------------

    def _cues_before(self, place: int, at: int) -> list[Match]:
        """Owner words between the last temperature and this one: its clause's, else the sentence's."""
        left = self.candidates[place - 1] + 1 if place else 0
        start = at
        while start > left and not self.tokens[start - 1].is_break:
            start -= 1
        clause = max(start, self.message.clause(at)[0])
        cues = [cue for cue in self.owners if start <= cue.start and cue.end <= at and cue not in self.used
                and (self.tokens[cue.end - 1].text not in NEED_THEIR_FIGURE or self._leads_to(cue, at))]
        near = [cue for cue in cues if cue.start >= clause]
        return near if near or at - clause > 2 else [cue for cue in cues if cue.means in CARRIED]

    def _cue_after(self, place: int, at: int, owned: bool) -> str | None:
        """What stands right after the figure; a bare name counts only where no owner stands before."""
        for match in sorted(self.right, key=len, reverse=True):
            if match.start != at + 1:
                continue
            prepositional = self.tokens[match.start].text in ("on", "at", "in", "is", "was")
            if owned and not prepositional and match.means not in ("not_a_reading", "meat_f"):
                continue
            if match.end in self.candidates and not self._names_follow_figures(match):
                continue
            self.used += [cue for cue in self.owners if cue.overlaps(match)]
            return match.means
        return None

    def _names_follow_figures(self, match: Match) -> bool:
        last = self.candidates[-1]
        return match.means not in ("target_f",) and any(
            other.start == last + 1 and other.means != "not_a_reading" for other in self.right)

    def _is_change(self, at: int) -> bool:
        quantity = self.tokens[at].quantity
        return quantity.value < HIGHEST_CHANGE and any(
            cue.means == "change" and self._leads_to(cue, at) for cue in self.owners)

    def _leads_to(self, cue: Match, at: int) -> bool:
        """Whether only filler words stand between a cue and the figure."""
        return cue.end <= at and all(token.text in self.lexicon.data["figures"]["fillers"]
                                     for token in self.tokens[cue.end:at])

    def _is_against(self, place: int, at: int) -> bool:
        """"228 vs 225", "350 instead of 250"."""
        if not place:
            return False
        between = self.message.words(self.candidates[place - 1] + 1, at)
        return between in self.lexicon.data["figures"]["against"]

    def _between(self, place: int) -> list[Token]:
        return self.tokens[self.candidates[place] + 1:self.candidates[place + 1]]

    def _starts_a_move(self, place: int, at: int) -> bool:
        """"from 400 to 250": this is the 400."""
        if place + 1 >= len(self.candidates):
            return False
        words = [token.text for token in self._between(place)]
        return "to" in words and set(words) <= _LINKS

    def _ends_a_wished_move(self, place: int, at: int) -> bool:
        return bool(place) and self._starts_a_move(place - 1, at) and self.message.moods[at] in ASKING
