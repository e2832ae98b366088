"""The words beside each temperature that tell whose it is: names, wishes, "was", changes, comparisons."""

from advisor.language.message import Message
from advisor.language.patterns import Match
from advisor.language.tokens import Quantity, Token

HIGHEST_CHANGE = 150  # "dropped 50" is a change, "dropped 250" a careless "dropped to 250"
MOST_COUNTED = 60  # of anything edible
MOST_NUMBERED = 20  # steps, cookers
NAMES = {"dome_f", "grate_f", "meat_f", "ambient_f", "boiling_reads_f", "ice_reads_f"}
WISHES = {"target_f", "meat_target_f", "cook_at"}
CARRIED = {"dome_f", "grate_f", "meat_f", "ambient_f", "either"}  # names that reach into the next clause
NEED_THEIR_FIGURE = {
    "for",
    "at",
    "to",
    "is",
    "on",
    "after",
    "set",
    "give",
    "gives",
    "hold",
    "before",
}  # a cue that ends so must stand right before the figure
REACHED = {"get", "gets", "got", "reach", "reaches", "reached", "hit"}
NUMBERED = ("#", "number", "no", "step", "steps", "cooker", "pit")
PREPOSITIONS = ("on", "at", "in", "is", "was")
PLACES = {"under", "below", "beneath", "through", "onto", "off", "over", "above", "touching", "past", "thru"}
LINKS = {"to", "down", "up", "all", "the", "way", "and", "then", "back", ">", "-"}


class Cues:
    """The cue words of one message, and what stands before and after each of its temperatures.

    figures: the indexes of the tokens that are temperatures. A name that was read as standing after its figure is
    not read again as standing before the next one.
    """

    def __init__(self, message: Message) -> None:
        self.message, self.tokens, self.lexicon = message, message.tokens, message.lexicon
        self.owners = [
            cue for cue in _whole_names(self.lexicon.owners.find(self.tokens)) if not self._is_a_place(cue)
        ]
        self._right = self.lexicon.after_figures.find(self.tokens)
        self.figures = [at for at in range(len(self.tokens)) if self._is_temperature(at)]
        self._used: list[Match] = []

    def _is_a_place(self, cue: Match) -> bool:
        """ "Ash under the grate", "flames through the grate": where something is, not what is read."""
        if cue.means != "grate_f":
            return False
        before = [token.text for token in self.tokens[max(0, cue.start - 2) : cue.start]]
        return bool(PLACES & set(before[-1:] if before[-1:] != ["the"] else before))

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
        if before in NUMBERED and quantity.value < MOST_NUMBERED:
            return True
        return bool(
            after
            and (
                after.text in counted
                or after.lemma in counted
                or after.lemma == "food"
                and quantity.value <= MOST_COUNTED
            )
        )

    def before(self, place: int, at: int) -> list[Match]:
        """Owner words between the last temperature and this one: its clause's, else the sentence's."""
        left = self.figures[place - 1] + 1 if place else 0
        start = at
        while start > left and not self.tokens[start - 1].is_break:
            start -= 1
        clause = max(start, self.message.clause(at)[0])
        cues = [
            cue
            for cue in self.owners
            if start <= cue.start
            and (cue.end <= at or (cue.start < at and self.tokens[cue.start].text in ("want", "need")))  # "want ... at" reaches over it
            and cue not in self._used
            and (cue.end > at or not self._needs_its_figure(cue) or self.lead_to(cue, at))
        ]
        cues = [
            cue
            for cue in cues
            if not self.message.is_laid_by(cue.end, at)
            and not (cue.means in WISHES and self._turns_away(cue.end, at))
        ]
        near = [cue for cue in cues if cue.start >= clause]
        in_brackets = at > 0 and self.tokens[at - 1].text == "("
        if not near and (in_brackets or (at > clause and self._are_fillers(clause, at))):
            return cues  # "need it lower, like 230"
        return near if near or at - clause > 2 else [cue for cue in cues if cue.means in CARRIED]

    def _are_fillers(self, start: int, end: int) -> bool:
        return all(token.text in self.lexicon.data["figures"]["fillers"] for token in self.tokens[start:end])

    def _turns_away(self, end: int, at: int) -> bool:
        """ "Need the steaks off but it's 620": the wish is no wish for the figure."""
        words = [token.text for token in self.tokens[end:at]]
        return "but" in words and bool({"it", "she", "dome", "temp", "gauge", "thermometer"} & set(words))

    def _needs_its_figure(self, cue: Match) -> bool:
        last = self.tokens[cue.end - 1].text
        return last in NEED_THEIR_FIGURE or (cue.means == "target_f" and last in REACHED)

    def after(self, place: int, at: int, owned: bool) -> str | None:
        """What stands right after the figure; a bare name counts only where no owner stands before."""
        for match in sorted(self._right, key=len, reverse=True):
            if match.start != at + 1:
                continue
            prepositional = self.tokens[match.start].text in PREPOSITIONS
            if not prepositional and self._opens_the_next(match):
                continue
            if owned and not prepositional and match.means not in ("not_a_reading", "meat_f", "before", "target_f"):
                continue
            if match.end in self.figures and not self._names_follow_figures(match):
                continue
            self._used += [cue for cue in self.owners if cue.overlaps(match)]
            return match.means
        return None

    def _opens_the_next(self, match: Match) -> bool:
        """Whether the name after a figure begins what is said next ("300 probe says 250")."""
        return match.end < len(self.tokens) and self.tokens[match.end].lemma in ("say", "be")

    def _names_follow_figures(self, match: Match) -> bool:
        last = self.figures[-1]
        return match.means not in ("target_f",) and any(
            other.start == last + 1 and other.means != "not_a_reading" for other in self._right
        )

    def is_change(self, at: int) -> bool:
        quantity = self.tokens[at].quantity
        return (
            quantity.value < HIGHEST_CHANGE
            and not quantity.span
            and any(cue.means == "change" and self.lead_to(cue, at) for cue in self.owners)
        )

    def is_held(self, at: int) -> bool:
        """ "Over 150 for ten minutes": a mark that was passed, not a reading."""
        after = [
            token for token in self.tokens[at + 1 : at + 4] if token.text not in ("about", "like", "nearly")
        ]
        return (
            at > 0
            and self.tokens[at - 1].text in ("over", "above", "below", "under")
            and len(after) > 1
            and after[0].text == "for"
            and bool(after[1].quantity)
        )

    def lead_to(self, cue: Match, at: int) -> bool:
        """Whether only filler words stand between a cue and the figure."""
        return cue.end <= at and all(
            token.text in self.lexicon.data["figures"]["fillers"] for token in self.tokens[cue.end : at]
        )

    def is_against(self, place: int, at: int) -> bool:
        """ "228 vs 225", "350 instead of 250"."""
        if not place:
            return False
        between = self.message.words(self.figures[place - 1] + 1, at).removeprefix("now ")
        return between in self.lexicon.data["figures"]["against"]

    def was_then(self, at: int) -> bool:
        """ "119 ten minutes ago": the figure is an earlier one."""
        after = [token for token in self.tokens[at + 1 : at + 4] if token.text not in ("a", "about", "like")][:1]
        ahead = {token.text for token in self.tokens[max(0, at - 2) : at]}
        reached = len(self.figures) == 1 and bool(REACHED & ahead)
        return bool(not reached and after and after[0].quantity and after[0].quantity.kind == "ago")

    def _between(self, place: int) -> list[Token]:
        return self.tokens[self.figures[place] + 1 : self.figures[place + 1]]

    def starts_a_move(self, place: int, at: int) -> bool:
        """ "from 400 to 250": this is the 400."""
        if place + 1 >= len(self.figures):
            return False
        words = [token.text for token in self._between(place)]
        return "to" in words and set(words) <= LINKS

    def ends_a_move(self, place: int, at: int) -> bool:
        return bool(place) and self.starts_a_move(place - 1, at)

    def starts_a_spanned_wish(self, place: int) -> bool:
        """ "Bring her down from 350 to 275": a wish that reaches over this figure to the next one."""
        if place + 1 >= len(self.figures):
            return False
        at, wished = self.figures[place], self.figures[place + 1]
        return any(cue.means == "target_f" and cue.start < at < cue.end <= wished for cue in self.owners)

    def ends_a_wished_move(self, place: int, at: int) -> bool:
        """ "Want it to come down from 315 to 240": this is the 240."""
        if not self.ends_a_move(place, at):
            return False
        if self.starts_a_spanned_wish(place - 1):
            return True
        return {"target_f", "before"} <= {cue.means for cue in self.before(place - 1, self.figures[place - 1])}


def _whole_names(cues: list[Match]) -> list[Match]:
    """Cues without the names inside a longer name: "core temp" is no "temp"."""
    names = [cue for cue in cues if cue.means in NAMES]
    return [
        cue
        for cue in cues
        if not (
            cue.means in NAMES | {"either", "target_f"}
            and any(
                other.start <= cue.start and cue.end <= other.end and len(other) > len(cue) for other in names
            )
        )
    ]
