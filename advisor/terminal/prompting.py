"""The chat at a terminal: line editing, history, completion, keys and colour. The only module that opens a prompt."""

import os
from typing import Any

from prompt_toolkit import PromptSession, print_formatted_text
from prompt_toolkit.application import get_app
from prompt_toolkit.filters import Condition
from prompt_toolkit.formatted_text import FormattedText
from prompt_toolkit.key_binding import KeyBindings, KeyPressEvent
from prompt_toolkit.output import ColorDepth
from prompt_toolkit.styles import Style
from prompt_toolkit.utils import is_dumb_terminal

from advisor.terminal.answering import HELP_HINT, LEAVE_HINT, answer
from advisor.terminal.completion import CommandCompleter
from advisor.terminal.door import CONTROLS
from advisor.terminal.history import open_history
from advisor.terminal.layout import columns, lines
from advisor.terminal.talk import Talk

COLOURS = Style.from_dict({"danger": "bold ansired", "care": "ansiyellow", "question": "bold ansicyan",
                           "step": "bold", "prompt": "ansigreen"})
PLAIN = Style.from_dict({})


class Prompting:
    """One chat at a terminal. `streams`: prompt_toolkit's input and output, for tests."""

    def __init__(self, talk: Talk, **streams: Any) -> None:
        self._talk = talk
        self._style = COLOURS if colour_wanted() else PLAIN
        self._session: PromptSession[str] = PromptSession(
            history=open_history(), completer=CommandCompleter(talk), complete_while_typing=_a_command_is_typed,
            key_bindings=keys(), style=self._style, color_depth=None if colour_wanted() else ColorDepth.DEPTH_1_BIT,
            **streams)

    def run(self) -> None:
        """Until the person leaves."""
        self.show(f"{self._talk.greeting} {HELP_HINT}")
        while not self._talk.over:
            try:
                self.show(answer(self._talk, self._session.prompt(self._message)))
            except KeyboardInterrupt:
                self.show(LEAVE_HINT)
            except EOFError:
                self._talk.over = True

    def show(self, text: str) -> None:
        """A reply on the screen, a blank line after it."""
        print_formatted_text(self.painted(text), style=self._style, output=self._session.output,
                             color_depth=self._session.color_depth)

    def painted(self, text: str) -> FormattedText:
        clean = text.translate(CONTROLS)
        return FormattedText((f"class:{kind}", f"{line}\n")
                             for kind, line in lines(clean, columns(), self._talk.openings))

    def _message(self) -> FormattedText:
        return FormattedText([("class:prompt", f"{self._talk.conversation.current.name or 'fire'}> ")])


def keys() -> KeyBindings:
    bindings = KeyBindings()

    @bindings.add("c-c")
    def _clear_or_hint(event: KeyPressEvent) -> None:
        if event.current_buffer.text:
            event.current_buffer.reset()
        else:
            event.app.exit(exception=KeyboardInterrupt(), style="class:aborting")

    return bindings


def colour_wanted() -> bool:
    return not os.environ.get("NO_COLOR") and not is_dumb_terminal()


@Condition
def _a_command_is_typed() -> bool:
    return get_app().current_buffer.text.lstrip().startswith("/")
