"""Flags that a few words turn round: "wasn't windy this morning, is now", "it was raining, not any more"."""

from collections.abc import Iterator

from advisor.facts import Value
from advisor.language.message import Message

AT_THE_END = ("but ", "there ")


def turned(message: Message) -> dict[str, Value]:
    """The flag of the clause before, the other way round; nothing where the words (`turns` in language.yaml) are not there."""
    return {flag: value for clause, value in _turns(message) for flag in _flags_named(message, *clause)}


def _turns(message: Message) -> Iterator[tuple[tuple[int, int], bool]]:
    """Clauses that are turned round, by words at their own end or by those that make up the next one, and to what."""
    turns: dict[bool, list[str]] = message.lexicon.data["turns"]
    clauses = message.clauses()
    for place, clause in enumerate(clauses):
        said = message.words(*clause)
        following = message.words(*clauses[place + 1]) if place + 1 < len(clauses) else ""
        for value, phrases in turns.items():
            if following in phrases or any(said.endswith(phrase) for phrase in phrases if phrase.startswith(AT_THE_END)):
                yield clause, value


def _flags_named(message: Message, start: int, end: int) -> set[str]:
    """Flags whose true words stand in the clause, whatever its tense and its "not"."""
    return {match.means[0] for match in message.lexicon.phrases.find(message.tokens)
            if start <= match.start and match.end <= end and match.means[1] is True}
