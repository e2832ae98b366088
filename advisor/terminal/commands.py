"""The slash commands of the chat as a table: name, alias, one line, handler. Help and completion come from it.

Handlers get the talk and the words after the command, and return text; they never print.
"""

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from advisor.errors import CommandRefused, DrafthandError
from advisor.suggestions import did_you_mean
from advisor.telling import step_lines
from advisor.terminal.board import board
from advisor.terminal.layout import columns
from advisor.terminal.talk import Talk

WIDE = 100  # columns where no terminal says


@dataclass(frozen=True, slots=True)
class Command:
    """takes: what may stand behind it, for the help; suggests: what completion offers there; bare: words that, alone on a
    line, mean it too. None of those may mean anything else at a fire, as "help" does, or forget more than it does there.
    """

    name: str
    alias: str
    takes: str
    says: str
    run: Callable[[Talk, str], str]
    suggests: Callable[[Talk], Iterable[str]] = lambda talk: ()
    bare: tuple[str, ...] = ()

    @property
    def usage(self) -> str:
        return f"{self.name} {self.takes}".rstrip()


def is_command(line: str) -> bool:
    """Whether a line is for the program and not for the fire."""
    return line.lstrip().startswith("/") or _alone(line) in BARE


def answer(talk: Talk, line: str) -> str:
    """The text for one line that `is_command`. Raises CommandRefused for a command nobody knows."""
    if command := BARE.get(_alone(line)):
        return command.run(talk, "")
    name, _, rest = f"/{line.strip().lstrip('/ ')}".partition(" ")
    command = KNOWN.get(name.lower())
    if command is None:
        raise CommandRefused(f"there is no command {name[:40]}", "", did_you_mean(name, [c.name for c in COMMANDS]))
    return command.run(talk, rest.strip())


def _alone(line: str) -> str:
    return line.strip().rstrip(".!").lower()


def help_page() -> str:
    width = max(len(command.usage) for command in COMMANDS)
    lines = [f"{command.usage:<{width}}  {command.alias:<3}  {command.says}" for command in COMMANDS]
    return "\n".join(["Say what the cooker is doing, in your own words. Besides that:", "", *lines, "",
                      "Enter alone is /now. Ctrl-C clears the line, Ctrl-D leaves. Text without a slash is for the fire."])


def _help(talk: Talk, words: str) -> str:
    return help_page()


def _now(talk: Talk, words: str) -> str:
    return talk.where()


def _board(talk: Talk, words: str) -> str:
    standings = talk.standings()
    if not standings:
        return "Nothing is known of any cooker yet. Tell me what the dome reads, and what you want."
    conversation = talk.conversation
    return board(standings, conversation.current.name, columns() or WIDE, talk.settings.screen_reader,
                 conversation.rulebook.catalogue, conversation.wording())


def _why(talk: Talk, words: str) -> str:
    return talk.say("why").text


def _why_not(talk: Talk, words: str) -> str:
    if not words:
        raise CommandRefused("/why-not lacks a step or a cause", "", "write for instance /why-not burp")
    return talk.say(f"why not {words}").text


def _what_if(talk: Talk, words: str) -> str:
    if not words:
        raise CommandRefused("/what-if lacks something to suppose", "", "write for instance /what-if it hits 400")
    return talk.say(f"what if {words}").text


def _steps(talk: Talk, words: str) -> str:
    cook = talk.conversation.current
    if not cook.steps:
        return "There are no steps to take just now."
    lines = zip(cook.steps, step_lines(cook.steps), strict=True)
    return "\n".join(f"{line}{' (done)' if step.n in cook.steps_done else ''}" for step, line in lines)


def _done(talk: Talk, words: str) -> str:
    numbers = words.replace(",", " ").split()
    if any(not number.isdecimal() for number in numbers):
        raise CommandRefused(f"{words[:40]!r} are no step numbers", "", "write for instance /done 1 2, or /done alone")
    if not numbers:
        return talk.say("done").text
    return talk.done([int(number[:6]) for number in numbers]).text


def _facts(talk: Talk, words: str) -> str:
    known = talk.status().situation
    wording, vocabulary = talk.conversation.wording(), talk.conversation.rulebook.vocabulary
    return "\n".join(f"{vocabulary[name].says}: {wording.say(name, value)}" for name, value in known.items()) or (
        "Nothing is known yet.")


def _cooker(talk: Talk, words: str) -> str:
    if not words:
        raise CommandRefused("/cooker lacks a name", "", "write for instance /cooker left")
    return talk.switch(words).text


def _cookers(talk: Talk, words: str) -> str:
    names = talk.conversation.cookers
    here = talk.conversation.current.name
    return "\n".join(f"{name}{' (in hand)' if name == here else ''}" for name in names) or (
        "There is one cooker, and nobody has given it a name. /cooker NAME starts another.")


def _undo(talk: Talk, words: str) -> str:
    if talk.session.told_elsewhere():
        raise CommandRefused("what was told last was told at another till", "it may be right",
                             "say what is wrong, such as \"no, 310\"; /undo again takes it back all the same")
    return talk.say("undo").text


def _note(talk: Talk, words: str) -> str:
    if not words:
        raise CommandRefused("/note lacks the words", "", "write for instance /note wind from the lake")
    talk.session.note(words)
    return "Noted down."


def _finish(talk: Talk, words: str) -> str:
    from advisor.terminal.ownlore import learn_from

    cook = talk.session.finish(words or None)
    if cook is None:
        return "The cook is finished."
    return f"The cook is finished; it is number {cook.id} in the logbook, drafthand report {cook.id} shows it. {learn_from(talk.session, cook)}".rstrip()


def _reset(talk: Talk, words: str) -> str:
    return talk.reset().text


def _reload(talk: Talk, words: str) -> str:
    """The rules as they are on disk now; with a fault in them the old ones stay."""
    try:
        number = talk.reload()
    except DrafthandError as error:
        return f"The rules stay as they were: {str(error).rstrip('.')}."
    return f"The rules are read again: {number} of them."


def _quit(talk: Talk, words: str) -> str:
    talk.over = True
    goes_on = " Start me again and we go on; the timers do not stop." if talk.is_kept and talk.waits else ""
    return f"Mind the ash.{goes_on}"


COMMANDS = (
    Command("/help", "/?", "", "this page", _help, bare=("?",)),
    Command("/now", "/n", "", "where things stand, in three lines", _now, bare=("now",)),
    Command("/board", "/b", "", "all cookers: dome, target, which way, time left, step, danger", _board, bare=("board",)),
    Command("/steps", "/s", "", "the steps again, and which are done", _steps, bare=("steps",)),
    Command("/done", "/d", "[NUMBERS]", "steps carried out; without numbers, the ones in hand", _done),
    Command("/why", "/w", "", "why this advice", _why),
    Command("/why-not", "/wn", "STEP OR CAUSE", "why not that", _why_not, Talk.names_to_ask_about),
    Command("/what-if", "/wi", "WORDS", "what would come of it; nothing is taken as fact", _what_if),
    Command("/facts", "/f", "", "what is known so far", _facts),
    Command("/cooker", "/c", "NAME", "turn to another cooker, new or known", _cooker, Talk.cooker_names),
    Command("/cookers", "/cs", "", "the cookers going", _cookers),
    Command("/undo", "/u", "", "take back what you told me last", _undo, bare=("undo",)),
    Command("/note", "/no", "WORDS", "your own words into the logbook of this cook", _note),
    Command("/finish", "/fi", "[OUTCOME WORDS]", "this cook is over; how it came out", _finish),
    Command("/reset", "/r", "", "forget everything and start over", _reset),
    Command("/reload", "/rl", "", "read the rules again", _reload),
    Command("/quit", "/q", "", "leave", _quit, bare=("quit", "exit")),
)

KNOWN = {word: command for command in COMMANDS for word in (command.name, command.alias)}
BARE = {word: command for command in COMMANDS for word in command.bare}
