"""The rule base and the words of its language as they were read last time, kept in the user's cache folder: an answer must not wait for hundreds of files.

What is kept counts only while every rule file, and the code that reads them, is the same by name, size and time.
Whatever goes wrong with it, the rules are read from their files.
"""

import hashlib
import os
import pickle
import sys
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path

import platformdirs

import advisor
from advisor.language.lexicon import go_by, language_data
from advisor.rulebook.loader import CASES, Rulebook, read_rulebook, rules_folder


def kept_rulebook(folder: Path | None = None) -> Rulebook:
    """The same as read_rulebook(folder), and raising the same, only sooner from the second time on."""
    folder = folder or rules_folder()
    if kept := _kept(folder):
        return kept
    rulebook = read_rulebook(folder)
    with suppress(OSError):
        _keep(rulebook, _place(folder))
    return rulebook


def _kept(folder: Path) -> Rulebook | None:
    try:
        rulebook, language = pickle.loads(_place(folder).read_bytes())
        if folder == rules_folder():
            go_by(language)
        return rulebook
    except Exception:  # noqa: BLE001  a torn, foreign or missing file raises anything
        return None


def _place(folder: Path) -> Path:
    """Where the rules of `folder`, as they are now, are kept."""
    sign = hashlib.sha256(f"{advisor.__version__} {sys.version} {folder.resolve()}".encode())
    for line in sorted((*_signs(folder), *_signs(Path(advisor.__file__).parent))):
        sign.update(line.encode())
    cache = platformdirs.user_cache_path("drafthand", appauthor=False)
    return cache / f"rules-{_digest(str(folder.resolve()))}-{sign.hexdigest()[:32]}.pickle"


def _signs(folder: Path | str) -> Iterator[str]:
    """Path, size and time of every file the rule base is read from."""
    for entry in os.scandir(folder):
        if entry.is_dir():
            yield from _signs(entry.path)
        elif not entry.name.endswith((CASES, ".pyc")):
            found = entry.stat()
            yield f"{entry.path} {found.st_size} {found.st_mtime_ns}"


def _digest(text: str) -> str:
    return hashlib.sha256(text.encode()).hexdigest()[:8]


def _keep(rulebook: Rulebook, place: Path) -> None:
    """Written beside and moved into place, so that nobody reads half of it; earlier ones of the same folder go."""
    place.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
    beside = place.with_suffix(f".{os.getpid()}")
    kept = (rulebook, language_data() if rulebook.folder == rules_folder() else {})
    beside.write_bytes(pickle.dumps(kept, protocol=pickle.HIGHEST_PROTOCOL))
    for earlier in place.parent.glob(f"rules-{_digest(str(rulebook.folder.resolve()))}-*.pickle"):
        earlier.unlink(missing_ok=True)
    beside.replace(place)
