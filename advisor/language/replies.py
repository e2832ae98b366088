"""The yes, no or "no idea" with which a message begins, and whether it really answers the question."""

from advisor.language.message import Message
from advisor.language.patterns import Match

EARLY_WORDS = 3
BARE_NO = {"no", "none", "nothing", "nobody", "never", "neither", "zero"}
AFTER_A_NO = {
    "it", "she", "he", "i", "we", "they", "there", "that", "this", "its", "my", "you", "the", "just", "but", "only",
    "still", "all", "mate", "sir", "sorry", "thanks", "way", "at", "yet", "now", "not", "and", "because", "as", "so",
    "'s", "more", "longer", "never", "nothing", "none", "nope", "no", "well", "actually", "one", "is", "on", "in", "yes",
}  # fmt: skip
FILLERS = {
    "about", "around", "like", "maybe", "probably", "it", "is", "just", "a", "the", "say", "i", "think", "at", "be",
    "well", "um", "er", "roughly", "nearly", "almost", "now", "or", "so", "guess", "reckon", "'s", "still", ",", ".",
    "oh", "uh", "hmm", "ah",
}  # fmt: skip


def reply_of(message: Message) -> Match | None:
    """The yes or no with which the message begins; None where its "no" belongs to something else ("no wind")."""
    declined = [match for match in message.lexicon.intents.find(message.tokens) if match.means == "declined"]
    found = [
        match
        for match in message.lexicon.answers.find(message.tokens)
        if match.start <= EARLY_WORDS
        and match.means in ("yes", "no")
        and {token.text for token in message.tokens[: match.start]} <= FILLERS
        and message.words(max(0, match.start - 1), match.start + 1) != "oh no"  # a cry, no answer
        and not any(match.overlaps(refusal) for refusal in declined)
    ]
    reply = min(found, key=lambda match: (match.start, -len(match)), default=None)
    return reply if reply and not _belongs_elsewhere(message, reply) else None


def _belongs_elsewhere(message: Message, reply: Match) -> bool:
    """ "No wood", "nothing on it": the denial is of the next word, unless that names what was asked."""
    if message.words(reply.start, reply.start + 2) == "no not":
        return True
    if message.words(reply.start, reply.start + 3) == "no , not" and reply.start + 3 < len(message.tokens):
        after = message.tokens[reply.start + 3]
        return after.kind == "word" and after.text not in AFTER_A_NO and not _names_the_question(message, after.text)
    if message.words(reply.start, reply.start + 2) == "no more" and reply.start + 2 < len(message.tokens):
        return not message.tokens[reply.start + 2].is_pause
    if message.tokens[reply.start].text not in BARE_NO or len(reply) > 1 or reply.end >= len(message.tokens):
        return False
    after = message.tokens[reply.end]
    if after.is_pause or after.kind != "word" or after.text in AFTER_A_NO:
        return False
    return not _names_the_question(message, after.text, after.lemma)


def _names_the_question(message: Message, *words: str) -> bool:
    asked = message.context.asked or ""
    says = message.lexicon.vocabulary[asked].says if asked in message.lexicon.vocabulary else ""
    return bool({*asked.split("_"), *says.split()} & set(words))


def corrects(message: Message) -> bool:
    return any(match.means in ("correction", "undo") for match in message.lexicon.intents.find(message.tokens))
