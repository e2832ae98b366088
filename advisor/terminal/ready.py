"""What every way in starts with: a conversation over the rule base, for the cooker that was named."""

from pathlib import Path

from advisor.conversation import Conversation
from advisor.profile import read_profile
from advisor.terminal.keptrules import kept_rulebook
from advisor.terminal.startup import without_collecting


def conversation(cooker: str | None, forecasts: bool = True) -> Conversation:
    """cooker: path of a profile, or None. Raises ProfileError, RuleFileError. forecasts: whether the physics is asked."""
    with without_collecting():
        profile = read_profile(Path(cooker)) if cooker else None
        return Conversation(kept_rulebook(), profile, forecasts)


def whole(words: str) -> str:
    """`words` with what is no character (half of one, bytes of another encoding) replaced: JSON can't carry it."""
    return words.encode("utf-8", "replace").decode("utf-8")
