"""Whether a bare figure stands among words that have nothing to do with a fire ("the 110 stop")."""

from advisor.language.message import Message
from advisor.language.replies import corrects
from advisor.language.tokens import Token

FACTS = {
    "dome_f",
    "grate_f",
    "meat_f",
    "target_f",
    "meat_target_f",
    "ambient_f",
    "boiling_reads_f",
    "ice_reads_f",
}
UNHEARD = ("suppose", "elsewhere", "bygone")
LEAST_ALONE = 100  # a smaller bare figure among strangers is a count
LEADS = {"least", "now", "still", "at", "is", "'s", "hit", "hits", "around", "about", "to"}  # words before a reading


def is_small_talk(message: Message) -> bool:
    """True where a stranger stands in a message that names nothing of the fire and answers no question."""
    if message.context.asked or corrects(message) or not any(_is_stranger(message, at) for at in range(len(message.tokens))):
        return False
    return not is_about_the_fire(message)


def is_led(message: Message, at: int) -> bool:
    """Whether the figure is a reading even in small talk: "now 340", but not "at the 110 stop"."""
    if _is_set_against(message, at):
        return True
    after = at + 1 < len(message.tokens) and _is_stranger(message, at + 1)
    led = at > 0 and message.tokens[at - 1].text in LEADS and not after
    return led or (message.tokens[at].quantity.value >= LEAST_ALONE and _stands_alone(message, at))


def _is_set_against(message: Message, at: int) -> bool:
    """ "262 instead of 250": two figures held against each other are a reading and a wish."""
    for end in range(at + 2, min(at + 5, len(message.tokens))):
        if message.tokens[end].quantity:
            return message.words(at + 1, end) in message.lexicon.data["figures"]["against"]
    return False


def _stands_alone(message: Message, at: int) -> bool:
    """ "Slowed right down, 310", "240 and drifting": nothing strange in its clause, or only after "and"."""
    start, end = message.clause(at)
    if start == 0 and end == len(message.tokens):
        return at == 0 and len(message.tokens) > 1 and message.tokens[1].text == "and"
    return not any(_is_stranger(message, i) for i in range(start, end))


def _is_stranger(message: Message, at: int) -> bool:
    token: Token = message.tokens[at]
    names = {word for name in message.context.cookers for word in name.lower().split()}
    known = message.lexicon.talk
    return (
        token.kind == "word"
        and message.moods[at] not in UNHEARD
        and not {token.text, token.lemma} & known
        and token.text not in names
    )


def is_about_the_fire(message: Message) -> bool:
    lexicon = message.lexicon
    if any(match.means in FACTS for match in lexicon.owners.find(message.tokens)):
        return True
    return any(
        book.find(message.tokens)
        for book in (lexicon.phrases, lexicon.openings, lexicon.events, lexicon.fire_words)
    )
