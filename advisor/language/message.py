"""One message, or the part of it about one cooker, as the later stages see it."""

from dataclasses import dataclass

from advisor.language.heard import Context
from advisor.language.lexicon import Lexicon
from advisor.language.tokens import Token


@dataclass(frozen=True, slots=True)
class Message:
    """Tokens with one mood each, and what was known before."""

    tokens: list[Token]
    moods: list[str]
    lexicon: Lexicon
    context: Context

    def part(self, start: int, end: int) -> "Message":
        return Message(self.tokens[start:end], self.moods[start:end], self.lexicon, self.context)

    def words(self, start: int = 0, end: int | None = None) -> str:
        return " ".join(token.text for token in self.tokens[start:end])

    def clause(self, at: int) -> tuple[int, int]:
        """(start, end) of the clause that holds token `at`."""
        start = end = at
        while start > 0 and not self.tokens[start - 1].is_pause:
            start -= 1
        while end < len(self.tokens) and not self.tokens[end].is_pause:
            end += 1
        return start, end

    def clauses(self) -> list[tuple[int, int]]:
        """(start, end) of every clause that holds anything."""
        cuts = [at for at, token in enumerate(self.tokens) if token.is_pause] + [len(self.tokens)]
        return [(start, end) for start, end in zip([0, *(cut + 1 for cut in cuts)], cuts, strict=False) if start < end]

    def is_laid_by(self, end: int, at: int) -> bool:
        """Whether the thing named up to `end` was only put on or taken off before the talk went on ("and it ...")."""
        between = [token.text for token in self.tokens[end:at]]
        return bool({"on", "in", "off"} & set(between[:2])) and bool({"it", "temp", "she"} & set(between[2:]))

    def supposed(self) -> "Message":
        """The same message with what was supposed taken as said, and nothing else ("if it was" means "if it is")."""
        moods = ["said" if mood == "suppose" else "elsewhere" for mood in self.moods]
        tokens = [
            Token("is", "word", lemma="be") if token.text in ("was", "were") else token
            for token in self.tokens
        ]
        return Message(tokens, moods, self.lexicon, self.context)
