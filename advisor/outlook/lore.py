"""What past cooks taught about one cooker: out of its profile for the model, and in words for its owner."""

from typing import Any

from advisor.profile import CookerProfile


def learned_of(profile: CookerProfile) -> Any:
    """The members the model learned, or None. Raises ProfileError when they can't be used."""
    if profile.learned is None:
        return None
    from advisor.thermal.learn import Learned

    return Learned.from_data(profile.learned)
