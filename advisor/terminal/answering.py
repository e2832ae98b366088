"""One line typed in the chat to the text that answers it, whatever the line holds."""

from advisor.errors import DrafthandError
from advisor.terminal import commands
from advisor.terminal.faults import unforeseen
from advisor.terminal.talk import Talk
from advisor.terminal.thumbs import mended


def answer(talk: Talk, line: str) -> str:
    """The text for one line typed, whatever it holds."""
    try:
        if not line.strip():
            return talk.where()  # Enter alone: the quickest way to ask, with thumbs like that
        if commands.is_command(line):
            talk.session.look_in()  # what is only shown, such as the board, knows what the other tills were told
            return commands.answer(talk, line)
        return talk.say(mended(line)).text
    except DrafthandError as error:
        return as_sentence(error)
    except Exception as error:  # noqa: BLE001  a fault of ours costs one line, not the conversation
        return unforeseen(error)


def as_sentence(error: DrafthandError) -> str:
    """What was wrong, as a line of the talk."""
    said = str(error)
    return said[:1].upper() + said[1:] + ("" if said.endswith((".", "?")) else ".")
