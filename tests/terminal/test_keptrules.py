"""The kept rule base: the same as the files, never older than they are, and never in the way."""

import shutil

import pytest

from advisor.errors import RuleFileError
from advisor.language import lexicon
from advisor.rulebook.loader import read_rulebook, rules_folder
from advisor.terminal import keptrules
from advisor.terminal.keptrules import kept_rulebook


@pytest.fixture
def cache(tmp_path, monkeypatch):
    monkeypatch.setattr(keptrules.platformdirs, "user_cache_path", lambda *names, **more: tmp_path / "cache")
    return tmp_path / "cache"


@pytest.fixture
def rules(tmp_path):
    return shutil.copytree(rules_folder(), tmp_path / "rules")


def held(rulebook):
    """What a rule base says, to be compared."""
    return (rulebook.folder, rulebook.rules, rulebook.catalogue, rulebook.vocabulary.told, rulebook.vocabulary.derived)


def never(folder):
    raise AssertionError("the files were read again")


def test_the_second_time_the_files_are_not_read(cache, rules, monkeypatch):
    first = kept_rulebook(rules)
    assert held(first) == held(read_rulebook(rules))
    monkeypatch.setattr(keptrules, "read_rulebook", never)
    assert held(kept_rulebook(rules)) == held(first)


@pytest.mark.parametrize("change", ["edit", "add", "remove", "list"])
def test_any_change_of_the_files_counts_at_once(cache, rules, change):
    kept_rulebook(rules)
    rule = next((rules / "recover").glob("*[!s].yaml"))
    if change == "edit":
        rule.write_text(rule.read_text().replace("status: trusted", "status: draft") + "\n")
    elif change == "add":
        (rules / "recover" / f"{rule.stem}-too.yaml").write_text(
            rule.read_text().replace(f"id: {rule.stem}", f"id: {rule.stem}-too"))
    elif change == "remove":
        rule.unlink()
    else:
        phrases = rules / "phrases.yaml"
        phrases.write_text(phrases.read_text().replace("Noted.", "Noted, good."))
    assert held(kept_rulebook(rules)) == held(read_rulebook(rules))


def test_a_change_that_breaks_a_rule_is_told_at_once(cache, rules):
    kept_rulebook(rules)
    next((rules / "recover").glob("*[!s].yaml")).write_text("then: [")
    with pytest.raises(RuleFileError):
        kept_rulebook(rules)


def test_two_folders_are_kept_side_by_side_and_old_ones_go(cache, rules, tmp_path):
    other = shutil.copytree(rules, tmp_path / "other")
    kept_rulebook(rules)
    kept_rulebook(other)
    assert len(list(cache.iterdir())) == 2
    (rules / "phrases.yaml").touch()
    kept_rulebook(rules)
    assert len(list(cache.iterdir())) == 2


@pytest.mark.parametrize("garbage", [b"", b"\x80\x05garbage", b"cos\nnothing\n."])
def test_a_torn_file_is_read_past(cache, rules, garbage):
    kept_rulebook(rules)
    next(cache.iterdir()).write_bytes(garbage)
    assert held(kept_rulebook(rules)) == held(read_rulebook(rules))


def test_a_cache_that_cannot_be_written_is_no_matter(cache, rules):
    cache.write_text("a file where the folder should be")
    assert held(kept_rulebook(rules)) == held(read_rulebook(rules))


def test_the_words_of_the_language_are_kept_with_the_rules(cache, monkeypatch):
    kept_rulebook()
    words = dict(lexicon.language_data())
    monkeypatch.setattr(lexicon, "_read", {})
    monkeypatch.setattr(lexicon, "read_yaml", lambda path: pytest.fail("read again"))
    kept_rulebook()
    assert lexicon.language_data() == words
