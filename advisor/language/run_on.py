"""Sentences that run on without a mark between them ("i shut everything its 340 now"): a comma set where one begins."""

from advisor.language.lexicon import Lexicon
from advisor.language.tokens import Token

PRONOUNS = {"it", "she"}


def told_apart(tokens: list[Token], lexicon: Lexicon) -> list[Token]:
    """`tokens` with a comma before "it is ..." and "i shut ..." where they begin anew in the middle of a clause."""
    out: list[Token] = []
    for at, token in enumerate(tokens):
        within = bool(out) and out[-1].kind == "word" and not {out[-1].text, out[-1].lemma} & lexicon.leading_on
        if within and _begins(tokens, at, lexicon) or out and not out[-1].is_pause and _is_of_all(tokens, at):
            out.append(Token(",", "mark"))
        out.append(token)
    return out


def _begins(tokens: list[Token], at: int, lexicon: Lexicon) -> bool:
    after = tokens[at + 1] if at + 1 < len(tokens) else None
    if after is None:
        return False
    if [token.lemma for token in tokens[at + 3 : at + 4]] == ["be"]:
        return False  # "the table its on is smoking"
    return tokens[at].text in PRONOUNS and after.lemma == "be" or tokens[at].text in ("i", "we") and after.text in lexicon.data["told_deed"]


def _is_of_all(tokens: list[Token], at: int) -> bool:
    """ "One at 400 and two at 250 both want 250"."""
    return tokens[at].text in ("both", "all") and at + 1 < len(tokens) and tokens[at + 1].text in ("want", "need", "should")
