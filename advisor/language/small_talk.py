"""Whether a bare figure stands among words that have nothing to do with a fire ("the 110 stop")."""

from advisor.language.message import Message

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


def is_small_talk(message: Message) -> bool:
    """True where a word that is no plain talk stands beside the figure, and none of the fire's."""
    if message.context.asked:
        return False
    known = message.lexicon.talk | {word for name in message.context.cookers for word in name.lower().split()}
    strangers = any(
        token.kind == "word" and mood not in UNHEARD and not {token.text, token.lemma} & known
        for token, mood in zip(message.tokens, message.moods, strict=True)
    )
    return strangers and not is_about_the_fire(message)


def is_about_the_fire(message: Message) -> bool:
    lexicon = message.lexicon
    if any(match.means in FACTS for match in lexicon.owners.find(message.tokens)):
        return True
    return any(
        book.find(message.tokens)
        for book in (lexicon.phrases, lexicon.openings, lexicon.events, lexicon.fire_words)
    )
