"""What was typed in earlier chats, kept in the user's data folder; where that can't be written, quietly not at all."""

from collections.abc import Iterable

import platformdirs
from prompt_toolkit.history import FileHistory


class QuietHistory(FileHistory):
    """A history that never gets in the way of the advice."""

    def load_history_strings(self) -> Iterable[str]:
        try:
            return list(super().load_history_strings())
        except OSError:
            return []

    def store_string(self, string: str) -> None:
        try:
            super().store_string(string)
        except OSError:
            pass


def open_history() -> QuietHistory:
    folder = platformdirs.user_data_path("drafthand", appauthor=False)
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError:
        pass
    return QuietHistory(str(folder / "typed"))
