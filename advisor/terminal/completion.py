"""What the Tab key offers: commands where a line begins with a slash, and behind a command what it suggests."""

from collections.abc import Iterator

from prompt_toolkit.completion import CompleteEvent, Completer, Completion
from prompt_toolkit.document import Document

from advisor.terminal.commands import COMMANDS, KNOWN
from advisor.terminal.talk import Talk


class CommandCompleter(Completer):
    def __init__(self, talk: Talk) -> None:
        self._talk = talk

    def get_completions(self, document: Document, complete_event: CompleteEvent) -> Iterator[Completion]:
        typed = document.text_before_cursor.lstrip()
        if not typed.startswith("/"):
            return
        name, blank, rest = typed.partition(" ")
        if not blank:
            yield from (Completion(command.name, -len(name), display_meta=command.says)
                        for command in COMMANDS if command.name.startswith(name.lower()))
        elif command := KNOWN.get(name.lower()):
            yield from (Completion(offer, -len(rest)) for offer in command.suggests(self._talk)
                        if offer.startswith(rest.lower()))
