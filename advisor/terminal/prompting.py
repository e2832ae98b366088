"""The chat at a terminal: line editing, history, completion, keys, timers below the prompt. The only module that opens one."""

import asyncio
from threading import Thread
from typing import Any

from prompt_toolkit import PromptSession, print_formatted_text
from prompt_toolkit.application import get_app, run_in_terminal
from prompt_toolkit.filters import Condition
from prompt_toolkit.formatted_text import FormattedText
from prompt_toolkit.key_binding import KeyBindings, KeyPressEvent
from prompt_toolkit.output import ColorDepth

from advisor.terminal.answering import answer
from advisor.terminal.colours import colour_wanted, style_for
from advisor.terminal.completion import CommandCompleter
from advisor.terminal.door import CONTROLS
from advisor.terminal.history import open_history
from advisor.terminal.layout import Kind, columns, lines
from advisor.terminal.small import said_again
from advisor.terminal.talk import Talk
from advisor.terminal.toolbar import toolbar

LOOK_EVERY_S = 0.5
LOOK_IN_EVERY_S = 1.0
DRAW_EVERY_S = 1.0
ROOM_FOR_OFFERS = 4  # lines below the prompt, on a screen that may have twelve


class Prompting:
    """One chat at a terminal. `streams`: prompt_toolkit's input and output, for tests."""

    def __init__(self, talk: Talk, **streams: Any) -> None:
        self._talk = talk
        self._looks: Thread | None = None  # whether another till has told anything, being asked
        self._behind = False
        self._style = style_for(talk.settings.contrast)
        self._session: PromptSession[str] = PromptSession(
            history=open_history(), completer=CommandCompleter(talk), complete_while_typing=_a_command_is_typed,
            key_bindings=keys(), style=self._style, color_depth=None if colour_wanted() else ColorDepth.DEPTH_1_BIT,
            bottom_toolbar=self._toolbar, refresh_interval=DRAW_EVERY_S, reserve_space_for_menu=ROOM_FOR_OFFERS, enable_suspend=True, **streams)

    def run(self) -> None:
        """Until the person leaves."""
        self.show(self._talk.welcome())
        while not self._talk.over:
            try:
                self.show(answer(self._talk, self._session.prompt(self._message, pre_run=self._watch)))
            except KeyboardInterrupt:
                self.show(self._talk.leave_hint)
            except EOFError:
                self._talk.over = True

    def show(self, text: str) -> None:
        """A reply on the screen, a blank line after it; on a screen too small for it the most urgent once more."""
        self._print(self.painted(text))
        again = said_again(self._laid_out(text), self._session.output.get_size().rows, columns(), self._talk.in_short)
        if again:
            self._print(FormattedText((f"class:{kind}", f"{line}\n") for kind, line in again))

    def painted(self, text: str) -> FormattedText:
        return FormattedText((f"class:{kind}", f"{line}\n") for kind, line in self._laid_out(text))

    def _laid_out(self, text: str) -> list[tuple[Kind, str]]:
        return list(lines(text.translate(CONTROLS), columns(), self._talk.openings))

    def _print(self, text: FormattedText) -> None:
        print_formatted_text(text, style=self._style, output=self._session.output, color_depth=self._session.color_depth)

    # -- timers -------------------------------------------------------------------------------------------------------

    def _watch(self) -> None:
        """Look after the timers and the other tills as long as the prompt stands."""
        get_app().create_background_task(self._remind())
        get_app().create_background_task(self._look_in())

    async def _remind(self) -> None:
        while True:
            for line in self._talk.reminders():
                await run_in_terminal(lambda line=line: self._announce(line))
            await asyncio.sleep(LOOK_EVERY_S)

    async def _look_in(self) -> None:
        """What another till tells of the same cooks shows below the prompt. A server that is slow holds up nobody's typing,
        and an answer does not wait until it has been asked.
        """
        while True:
            if self._looks is None or not self._looks.is_alive():
                if self._behind:
                    self._talk.session.look_in()
                self._looks = Thread(target=self._ask, daemon=True)
                self._looks.start()
            await asyncio.sleep(LOOK_IN_EVERY_S)

    def _ask(self) -> None:
        self._behind = self._talk.session.is_behind

    def _announce(self, line: str) -> None:
        """A line above the prompt; prompt_toolkit takes the prompt away meanwhile and puts it back as it was."""
        clean = "".join(text for _, text in self.painted(line)).rstrip("\n")
        self._print(FormattedText([("class:timer", clean)]))
        if self._talk.rings:
            self._session.output.bell()
            self._session.output.flush()

    def _toolbar(self) -> FormattedText:
        width = self._session.output.get_size().columns
        conversation = self._talk.conversation
        line = toolbar(self._talk.standings(), conversation.current.name, width - 1, conversation.rulebook.catalogue)
        return FormattedText([("class:bar", line)])

    def _message(self) -> FormattedText:
        return FormattedText([("class:prompt", self._talk.prompt)])


def keys() -> KeyBindings:
    bindings = KeyBindings()

    @bindings.add("c-c")
    def _clear_or_hint(event: KeyPressEvent) -> None:
        if event.current_buffer.text:
            event.current_buffer.reset()
        else:
            event.app.exit(exception=KeyboardInterrupt(), style="class:aborting")

    return bindings


@Condition
def _a_command_is_typed() -> bool:
    return get_app().current_buffer.text.lstrip().startswith("/")
