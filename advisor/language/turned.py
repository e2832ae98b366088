"""Flags that a few words turn round: "wasn't windy this morning, is now", "it was raining, not any more"."""

from advisor.facts import Value
from advisor.language.message import Message

NOT = "not"
IS_NOW = ("it is now", "is now", "now it is", "it 's now", "but it is now", "but is now", "but now it is", "it be now")
NO_LONGER = ("not now", "not any more", "not anymore", "no longer", "is not now", "it is not now", "not any longer",
             "is not any more", "is not anymore", "but not now", "but not any more", "but not anymore")


def turned(message: Message, heard: dict[str, Value]) -> dict[str, Value]:
    """The flag of the clause before, the other way round; nothing where the words are not there."""
    clauses = _clauses(message)
    found: dict[str, Value] = {}
    for start, end in clauses:
        words = _words(message, start, end)
        if any(words.endswith(phrase) for phrase in IS_NOW + NO_LONGER if phrase.startswith("but")):
            is_now = any(words.endswith(phrase) for phrase in IS_NOW)
            found |= {flag: is_now for flag in _flags_named(message, start, end)}
    for (start, end), words in zip(clauses, [_words(message, *clause) for clause in clauses[1:]], strict=False):
        if words in IS_NOW or words in NO_LONGER:
            found |= {flag: words in IS_NOW for flag in _flags_named(message, start, end)}
    return found


def _clauses(message: Message) -> list[tuple[int, int]]:
    cuts = [at for at, token in enumerate(message.tokens) if token.is_pause] + [len(message.tokens)]
    return [(start, end) for start, end in zip([0, *(cut + 1 for cut in cuts)], cuts, strict=False) if start < end]


def _words(message: Message, start: int, end: int) -> str:
    return " ".join(token.text for token in message.tokens[start:end])


def _flags_named(message: Message, start: int, end: int) -> set[str]:
    """Flags whose true words stand in the clause, whatever its tense and its "not"."""
    return {match.means[0] for match in message.lexicon.phrases.find(message.tokens)
            if start <= match.start and match.end <= end and match.means[1] is True}
