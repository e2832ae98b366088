"""The words of the trade, read once: rules/language.yaml and the `words:` of every fact, made ready for matching."""

from collections.abc import Iterator
from functools import cached_property
from pathlib import Path
from typing import Any

from advisor.language.patterns import PatternBook
from advisor.vocabulary import Vocabulary
from advisor.yamlfile import read_yaml

_FOLDERS = (Path(__file__).parents[2] / "rules", Path(__file__).parents[1] / "_rules")
OWNED = (
    "dome_f",
    "grate_f",
    "meat_f",
    "ambient_f",
    "boiling_reads_f",
    "ice_reads_f",
    "target_f",
    "meat_target_f",
    "meat_start_f",
    "peak_meat_f",
)


class Lexicon:
    """Pattern books by purpose; each is built when it is first used."""

    def __init__(self, vocabulary: Vocabulary, data: dict[str, Any]) -> None:
        self.vocabulary, self.data = vocabulary, data
        self._loose: dict[str, PatternBook] = {}
        self._groups = {"@" + name: "/".join(words) for name, words in data["groups"].items()}
        self.short_forms = {short: full.split() for short, full in data["short_forms"].items()}
        self.lemmas = {form: lemma for lemma, forms in data["forms"].items() for form in forms}
        self.negators = frozenset(data["negators"])
        self.negation_stops = frozenset(data["negation_stops"])
        self.alarms = frozenset(data["alarms"])
        self.alarms_of_anybody = frozenset(data["alarms_of_anybody"])

    def book(self, section: dict[Any, Any], exact: bool = False) -> PatternBook:
        """One book of a mapping from a meaning to its patterns."""
        return PatternBook(
            ((self.spelt_out(pattern), means) for means, patterns in section.items() for pattern in patterns),
            exact,
        )

    def spelt_out(self, pattern: Any) -> str:
        text = str(pattern)
        if "@" in text:
            for name, words in self._groups.items():
                text = text.replace(name, words)
        return text

    def words_of(self, fact: str) -> Any:
        return self.vocabulary[fact].words or []

    @cached_property
    def phrases(self) -> PatternBook:
        """Flags, choices, shares and times: meaning (fact, value), value None where the figure is the value."""
        return PatternBook(self._phrase_entries())

    def _phrase_entries(self) -> Iterator[tuple[str, tuple[str, Any]]]:
        for name, fact in self.vocabulary.told.items():
            if name in OWNED or name == "about" or not fact.words:
                continue
            sections = fact.words.items() if isinstance(fact.words, dict) else [(None, fact.words)]
            for value, patterns in sections:
                if value == "event":
                    continue
                value = None if value == "figure" else value
                yield from ((self.spelt_out(pattern), (name, value)) for pattern in patterns)

    @cached_property
    def event_facts(self) -> tuple[str, ...]:
        """The facts that count minutes since an event."""
        return tuple(
            name
            for name, fact in self.vocabulary.told.items()
            if isinstance(fact.words, dict) and "event" in fact.words
        )

    @cached_property
    def events(self) -> PatternBook:
        """What happened: meaning the fact that counts the minutes since."""
        return self.book({name: self.words_of(name)["event"] for name in self.event_facts})

    @cached_property
    def just_done(self) -> PatternBook:
        """Deeds told without a time: meaning the fact that counts the minutes since."""
        return self.book(self.data["just_done"])

    @cached_property
    def owners(self) -> PatternBook:
        """What a temperature may belong to: meaning a fact or a cue of `figures`."""
        figures = self.data["figures"]
        names = {name: self.words_of(name) for name in OWNED}
        foods = {"meat_f": [*names["meat_f"], "food"]}
        cues = {
            cue: figures[cue]
            for cue in ("before", "not_a_reading", "change", "cook_at", "either", "standing")
        }
        return self.book({**names, **foods, **cues}, exact=True)

    @cached_property
    def after_figures(self) -> PatternBook:
        return self.book(self.data["figures"]["after"])

    @cached_property
    def equal_targets(self) -> PatternBook:
        return self.book({"target_f": self.data["figures"]["equals_target"]})

    @cached_property
    def fire_words(self) -> PatternBook:
        """Words that show the talk is of a fire at all."""
        return self.book(
            {
                "fire": [
                    *self.data["names"],
                    *self.data["groups"]["fire"],
                    "fire",
                    "smoke",
                    "food",
                    "vent",
                    "burn",
                    "cook",
                ]
            }
        )

    @cached_property
    def talk(self) -> frozenset[str]:
        cookers = self.data["cookers"]
        return frozenset(
            [*self.data["talk"].split(), *cookers["kinds"], *cookers["adjectives"], *cookers["ordinals"]]
        )

    @cached_property
    def differences(self) -> PatternBook:
        return self.book(self.data["differences"])

    @cached_property
    def topics(self) -> PatternBook:
        return self.book(self.words_of("about") or {})

    @cached_property
    def loose_topics(self) -> list[tuple[str, list[frozenset[str]]]]:
        """Topics with words of which one of each set stands somewhere in the question."""
        return [
            (topic, [frozenset(one_of.split("/")) for one_of in self.spelt_out(words).split()])
            for topic, rows in self.data["asked_about"].items()
            for words in rows
        ]

    @cached_property
    def leading_on(self) -> frozenset[str]:
        """Words after which the next ones belong to the same sentence."""
        return frozenset(self.data["leading_on"].split())

    @cached_property
    def edits(self) -> PatternBook:
        """Words with which a figure just said is taken back."""
        return self.book({"edit": self.data["edits"]})

    @cached_property
    def advised(self) -> PatternBook:
        """Words before a deed that somebody advised."""
        return self.book({"advised": self.data["advised"]})

    @cached_property
    def followed(self) -> PatternBook:
        """Words that tell that it was done."""
        return self.book({"followed": self.data["followed"]})

    @cached_property
    def openings(self) -> PatternBook:
        return self.book(self.data["openings"])

    @cached_property
    def same_again(self) -> PatternBook:
        return self.book(self.data["same_again"])

    @cached_property
    def lid_shut_again(self) -> PatternBook:
        """A lid that was up for a purpose or a time, and is taken to be down again."""
        return self.book({True: self.data["lid_shut_again"]})

    @cached_property
    def clock_cues(self) -> PatternBook:
        return self.book({"clock": self.data["clock_cues"]})

    @cached_property
    def minute_cues(self) -> PatternBook:
        return self.book({"minutes": self.data["minute_cues"]})

    @cached_property
    def moods(self) -> PatternBook:
        return self.book(self.data["moods"], exact=True)

    @cached_property
    def idioms(self) -> PatternBook:
        return self.book({"idiom": self.data["idioms"]})

    @cached_property
    def intents(self) -> PatternBook:
        return self.book(self.data["intents"])

    @cached_property
    def answers(self) -> PatternBook:
        return self.book(self.data["answers"])

    def loose_answers(self, fact: str) -> PatternBook:
        """The phrases of one choice or share alone: meaning the value."""
        if fact not in self._loose:
            words = self.words_of(fact)
            self._loose[fact] = self.book(
                {value: patterns for value, patterns in words.items() if value not in ("figure", "event")}
                if isinstance(words, dict)
                else {}
            )
        return self._loose[fact]

    @cached_property
    def follow_ups(self) -> PatternBook:
        """Short news of a fact told before: meaning (the fact that must stand, fact, value)."""
        return self.book(
            {
                (after, fact, value): patterns
                for after, facts in self.data["follow_ups"].items()
                for fact, values in facts.items()
                for value, patterns in values.items()
            }
        )

    @cached_property
    def names(self) -> PatternBook:
        """Parts of the cooker and foods: meaning ("name", its first word) or ("food", kind)."""
        parts = {("name", name): patterns for name, patterns in self.data["names"].items()}
        foods = {
            ("food", kind): patterns for kind, patterns in self.data["foods"].items() if kind != "meat_words"
        }
        return self.book({**parts, **foods})

    def short_answers(self, fact: str) -> PatternBook:
        """What the phrases of one fact and the short answers to its question mean."""
        return self.book(
            {value: patterns for value, patterns in self.data["answers_to"].get(fact, {}).items()}
        )


_read: dict[str, Any] = {}


def language_data() -> dict[str, Any]:
    """What rules/language.yaml says, read once."""
    if not _read:
        folder = next((folder for folder in _FOLDERS if (folder / "language.yaml").is_file()), _FOLDERS[0])
        _read.update(read_yaml(folder / "language.yaml"))
    return _read


def go_by(data: dict[str, Any]) -> None:
    """Take what language_data() gave before for what it gives, so that the file need not be read again."""
    _read.update(data)


_lexicons: dict[int, Lexicon] = {}


def lexicon_of(vocabulary: Vocabulary) -> Lexicon:
    """The lexicon that goes with a vocabulary, built once for each."""
    found = _lexicons.get(id(vocabulary))
    if found is None or found.vocabulary is not vocabulary:
        found = _lexicons[id(vocabulary)] = Lexicon(vocabulary, language_data())
    return found
