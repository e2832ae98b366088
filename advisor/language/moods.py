"""How firmly each word is meant: said, asked, supposed, past, somebody else's, or denied."""

from advisor.language.lexicon import Lexicon
from advisor.language.patterns import Match, longest_first
from advisor.language.tokens import Token

SAID = "said"
_TO_SENTENCE_END = {"suppose"}
_WHOLE_SENTENCE = {"elsewhere", "bygone"}
_WHOLE_CLAUSE = {"tag"}
_SPEECH = {"says", "said", "reckons", "thinks", "told", "claims", "swears", "tells"}
AFTER_A_PLAIN_NO = {
    "it",
    "she",
    "he",
    "i",
    "we",
    "they",
    "that",
    "the",
    "there",
    "this",
    "still",
    "its",
    "my",
    "you",
}
PRONOUNS = {"it", "she", "they"}
LEADS_TO_ONE = {"think", "believe", "say", "sure", "know", "like", "if", "that", "mean", "reckon", "see", "tell", "feel", "seem",
                "certain", "not", "no", "what", "how", "why", "when", "where", "whether", "because", "as", "than"}
INVERTED = {"is", "are", "was", "were", "has", "have", "does", "do", "did", "can", "could", "will", "would", "should", "may"}
DEEDS = {"shut", "closed", "opened", "choked", "cracked", "set", "turned", "put", "lit", "added", "burped", "moved", "left"}
JOINS_A_DEED = {"when", "after", "since", "because", "as", "before", "while", "until", "till", "if", "than", "that", "where", "once"}


def moods_of(tokens: list[Token], lexicon: Lexicon) -> list[str]:
    """One mood for each token."""
    moods = [SAID] * len(tokens)
    triggers = longest_first(lexicon.moods.find(tokens))
    for trigger in triggers:
        if trigger.means in _WHOLE_SENTENCE:
            reports = tokens[trigger.end - 1].text in _SPEECH  # "salmon at 52, my mother says it's raw"
            start = _clause_start if reports else _sentence_start
            _spread(moods, trigger, start(tokens, trigger.start), _sentence_end(tokens, trigger.end))
    elsewhere = {trigger.start for trigger in triggers if trigger.means == "elsewhere"}
    for trigger in triggers:
        _apply(moods, trigger, tokens, elsewhere)
    _doubt_before_question_marks(moods, tokens)
    return moods


def _apply(moods: list[str], trigger: Match, tokens: list[Token], elsewhere: set[int]) -> None:
    mood = trigger.means
    if mood in _WHOLE_SENTENCE:
        return
    if mood in _WHOLE_CLAUSE:
        start, end = _clause_start(tokens, trigger.start), _clause_end(tokens, trigger.end)
        moods[start:end] = ["ask"] * (end - start)
        return
    end = _sentence_end(tokens, trigger.end) if mood in _TO_SENTENCE_END else _clause_end(tokens, trigger.end)
    if mood == "was":
        end = next((at for at in range(trigger.end, end) if _begins_anew(tokens, at) or _tells_a_deed(tokens, at)), end)
    if mood == SAID:
        others = [at for at in range(trigger.end, end) if at in elsewhere]
        _spread_said(moods, trigger, min(others, default=end))
    else:
        asks_anew = mood in ("ask", "plan") and 0 < trigger.start == _clause_start(tokens, trigger.start)
        _spread(moods, trigger, trigger.start, end, over=asks_anew and moods[trigger.start] == "bygone")


def _spread(moods: list[str], trigger: Match, start: int, end: int, over: bool = False) -> None:
    for at in range(start, end):
        if over or moods[at] not in ("elsewhere", "bygone", "suppose", "believed"):
            moods[at] = trigger.means


def _spread_said(moods: list[str], trigger: Match, end: int) -> None:
    """ "Now" ends a past or another cook's tale, but not a supposition."""
    for at in range(trigger.start, end):
        if moods[at] != "suppose":
            moods[at] = SAID


def _doubt_before_question_marks(moods: list[str], tokens: list[Token]) -> None:
    for at, token in enumerate(tokens):
        if token.text == "?":
            start = _clause_start(tokens, at)
            if any(token.quantity and token.quantity.kind == "ago" for token in tokens[start:at]):
                continue  # "shut it 20 minutes ago and it is still at 400??": what has its time is sure
            asks = tokens[start].text in INVERTED and at - start > 1
            for i in range(start, at):
                if moods[i] == SAID:
                    moods[i] = "ask" if asks else "maybe"


def _sentence_start(tokens: list[Token], at: int) -> int:
    while at > 0 and not tokens[at - 1].is_break:
        at -= 1
    return at


def _sentence_end(tokens: list[Token], at: int) -> int:
    while at < len(tokens) and not tokens[at].is_break:
        at += 1
    return at


def _clause_start(tokens: list[Token], at: int) -> int:
    while at > 0 and not tokens[at - 1].is_pause:
        at -= 1
    return at


def _clause_end(tokens: list[Token], at: int) -> int:
    while at < len(tokens) and not tokens[at].is_pause and tokens[at].text != "but":
        at += 1
    return at


def denied(tokens: list[Token], at: int, lexicon: Lexicon) -> bool:
    """Whether a negation reaches the word at `at`."""
    reach = lexicon.data["negation_reach"]
    for i in range(at - 1, max(-1, at - 1 - reach), -1):
        if tokens[i].is_pause or tokens[i].text in lexicon.negation_stops:
            return False
        if _begins_anew(tokens, i):
            return False
        if tokens[i].text in lexicon.negators:
            return not (tokens[i].text == "no" and tokens[i + 1].text.split()[0] in AFTER_A_PLAIN_NO)
    return False


def _begins_anew(tokens: list[Token], at: int) -> bool:
    """ "It is not rising it is falling": a new sentence that no mark sets off."""
    if at < 1 or at + 1 >= len(tokens) or tokens[at].text not in PRONOUNS or tokens[at + 1].lemma != "be":
        return False
    return tokens[at - 1].kind == "word" and tokens[at - 1].lemma not in LEADS_TO_ONE


def _tells_a_deed(tokens: list[Token], at: int) -> bool:
    """ "It was on 400 i shut everything": what somebody did, told without a mark before it."""
    return (
        at > 0
        and at + 1 < len(tokens)
        and tokens[at].text in ("i", "we")
        and tokens[at + 1].text in DEEDS
        and tokens[at - 1].text not in JOINS_A_DEED
    )
