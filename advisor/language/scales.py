"""Which scale a bare figure is in: what was said, what the person uses, what a cook can mean; else it stays open."""

from collections.abc import Sequence

from advisor.language.claims import Claim
from advisor.language.heard import Context, Unclear
from advisor.units import c_to_f, difference_c_to_f

LOWEST_COOK_F = 150  # nobody aims a charcoal cooker lower than this on the Fahrenheit scale (common practice)
HIGHEST_C = 370  # a bare figure above this is Fahrenheit even from somebody who speaks Celsius
HIGHEST_DONE_C = 105  # meat is pulled at no more than about 100 °C, and never below 105 °F
OPEN_FROM, OPEN_TO = 100, 150  # a lone bare dome reading in here may be either
HINT_OF_F = 200
TESTS = ("boiling_reads_f", "ice_reads_f")  # a degree counts in these


def scale_of(claims: Sequence[Claim], context: Context, said: str | None) -> tuple[str | None, bool]:
    """(scale of the bare figures or None when nothing shows it, whether words showed it)."""
    marked = [claim.unit for claim in claims if claim.unit]
    if said or marked:
        return said or marked[0], True
    if context.units:
        return context.units.temperature, False
    if any(_must_be_celsius(claim) for claim in claims) and not any(
        _must_be_fahrenheit(claim) for claim in claims
    ):
        return "C", True
    return _scale_of_target(context), False


def _must_be_celsius(claim: Claim) -> bool:
    if claim.is_difference or claim.before:
        return False
    if claim.fact == "target_f":
        return 60 <= claim.value < LOWEST_COOK_F
    return claim.fact == "meat_target_f" and 40 <= claim.value < HIGHEST_DONE_C


def _must_be_fahrenheit(claim: Claim) -> bool:
    return not claim.is_difference and claim.value > HIGHEST_C


def _scale_of_target(context: Context) -> str | None:
    target = context.facts.get("target_f")
    if not isinstance(target, float):
        return None
    celsius = (target - 32) * 5 / 9
    near_round_c = min(celsius % 5, 5 - celsius % 5) < 0.3
    return "C" if near_round_c and target % 25 > 0.5 else "F"


def in_fahrenheit(claim: Claim, scale: str | None) -> float:
    """The claim's value in °F (a difference without the 32), rounded to 1 °F; of a test in water or ice to 0.1."""
    unit = claim.unit or scale or "F"
    if unit == "C" and not claim.unit and claim.value > HIGHEST_C:
        unit = "F"
    if unit == "F":
        return float(round(claim.value))
    if claim.fact in TESTS:
        return round(c_to_f(claim.value), 1)
    return float(round(difference_c_to_f(claim.value) if claim.is_difference else c_to_f(claim.value)))


def left_open(claims: Sequence[Claim], scale: str | None, hinted: bool) -> Unclear | None:
    """A lone bare reading that may be either scale and has nothing to settle it."""
    if scale or hinted or len(claims) != 1:
        return None
    claim = claims[0]
    if (
        claim.fact != "dome_f"
        or claim.before
        or claim.is_difference
        or not OPEN_FROM <= claim.value <= OPEN_TO
    ):
        return None
    return Unclear(
        claim.said, (("dome_f", float(round(claim.value))), ("dome_f", float(round(c_to_f(claim.value)))))
    )
