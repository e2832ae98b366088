"""The tools of every step that joins tokens: look at one, merge some, apply a rule from left to right."""

from collections.abc import Callable
from dataclasses import replace

from advisor.language.tokens import Quantity, Token

Rule = Callable[[list[Token], int], tuple[Token, int] | None]  # the joined token and the index after it


def text_at(tokens: list[Token], at: int) -> str:
    return tokens[at].text if 0 <= at < len(tokens) else ""


def kind_at(tokens: list[Token], at: int) -> str:
    found = tokens[at].quantity if 0 <= at < len(tokens) else None
    return found.kind if found else ""


def merged(tokens: list[Token], start: int, end: int, **changes: object) -> Token:
    """tokens[start:end] as one token; its quantity is the first one in there, with `changes`."""
    said = " ".join(token.text for token in tokens[start:end])
    base = next((token.quantity for token in tokens[start:end] if token.quantity), Quantity("number", 0.0))
    return Token(said, "number", glued=tokens[start].glued, quantity=replace(base, said=said, **changes))


def rewrite(tokens: list[Token], rule: Rule) -> list[Token]:
    """Tokens with `rule(tokens, at) -> (token, end) | None` applied from left to right."""
    out: list[Token] = []
    at = 0
    while at < len(tokens):
        result = rule(tokens, at)
        token, at = result if result else (tokens[at], at + 1)
        out.append(token)
    return out
