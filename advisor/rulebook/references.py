"""Checks that the lists of a rules folder name nothing that is missing in one another: acts, cautions, openers, phrases."""

import re
from collections.abc import Iterator
from pathlib import Path

from advisor.errors import DrafthandError, RuleFileError
from advisor.rulebook.catalogue import Act, Catalogue
from advisor.suggestions import did_you_mean
from advisor.vocabulary import Vocabulary
from advisor.yamlfile import line_of

PHRASES = ("greeting", "thanks", "off_topic", "not_understood", "leave_alone", "look_again", "works_if", "if_not",
           "take_care", "danger", "danger_before", "danger_first", "ask", "corrected", "undone", "nothing_to_undo", "done", "declined",
           "cannot", "nothing_to_explain",
           "why_not_unknown", "what_if_unclear", "unclear", "talk_left", "kept_nothing", "not_kept", "kept_again",
           "kept_by_another")
TEMPLATE = re.compile(r"\{(\w+)\}")


def broken_references(folder: Path, vocabulary: Vocabulary, catalogue: Catalogue) -> Iterator[RuleFileError]:
    """Every name in the lists that leads nowhere, as an error with file and line."""
    for name, act in catalogue.acts.items():
        for keys, wrong in _of_act(name, act, vocabulary, catalogue):
            yield _error(folder / "acts.yaml", ["acts", name, *keys], wrong)
    for name, caution in catalogue.cautions.items():
        for act in caution.bears_on:
            if act not in catalogue.acts:
                yield _error(folder / "cautions.yaml", ["cautions", name, "bears_on"],
                             (f"there is no act {act!r}", did_you_mean(act, catalogue.acts)))
    for name in sorted(set(catalogue.findings) & set(vocabulary.all)):
        yield _error(folder / "findings.yaml", ["findings", name],
                     (f"{name!r} is a fact too", "give the finding another name, or conditions can't tell them apart"))
    for fact in (*catalogue.openers, *catalogue.openers_in_danger):
        if fact not in vocabulary.askable:
            yield _error(folder / "phrases.yaml", ["openers"], (f"{fact!r} has no question",
                                                                did_you_mean(fact, vocabulary.askable)))
    for phrase in PHRASES:
        if phrase not in catalogue.phrases:
            yield _error(folder / "phrases.yaml", ["phrases"], (f"the phrase {phrase!r} is missing", "add it"))


Wrong = tuple[str, str]


def _of_act(name: str, act: Act, vocabulary: Vocabulary, catalogue: Catalogue) -> Iterator[tuple[list[str], Wrong]]:
    for caution in act.needs:
        if caution not in catalogue.cautions:
            yield ["needs"], (f"there is no caution {caution!r}", did_you_mean(caution, catalogue.cautions))
    for other in act.against:
        if other not in catalogue.acts:
            yield ["against"], (f"there is no act {other!r}", did_you_mean(other, catalogue.acts))
    for fact, value in act.leaves.items():
        if wrong := _left_wrong(fact, value, act, vocabulary):
            yield ["leaves", fact], wrong


def _left_wrong(written: str, value: bool | float | str, act: Act, vocabulary: Vocabulary) -> Wrong | None:
    """What is wrong with one fact an act leaves, parameters filled in with each word they may be."""
    for fact in _filled(written, act):
        try:
            if value not in act.params:
                vocabulary.check(fact, value)
            elif fact not in vocabulary:
                vocabulary[fact]
        except DrafthandError as error:
            return error.seen, error.remedy
    return None


def _filled(written: str, act: Act) -> list[str]:
    names = TEMPLATE.findall(written)
    if not names:
        return [written]
    parameter = act.params.get(names[0])
    return [written.replace(f"{{{names[0]}}}", word) for word in parameter.values] if parameter else [written]


def _error(path: Path, keys: list[str], wrong: Wrong) -> RuleFileError:
    return RuleFileError(f"{path}:{line_of(path, keys)}", wrong[0], "", wrong[1])
