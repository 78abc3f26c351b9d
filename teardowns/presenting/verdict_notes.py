"""Why a word stays behind the plausibility beside it."""
from collections.abc import Sequence

from teardowns.engine.conditions import SAME_VOLTAGE
from teardowns.engine.rule import PASSED, PRACTICE
from teardowns.engine.verdicts import ENOUGH, WEAK

LESS_WAS_LOST = ("A load smaller than this was lost at an output that nobody named, and it may "
                 "have been this one: a load of the whole rating, held here, would decide.")


def note_on_word(claim: dict, claims: Sequence[dict]) -> str:
    """The engine's own note, but where a smaller load that was lost is all that is in the way.

    claims : all of the unit
    """
    return LESS_WAS_LOST if _only_a_lost_load(claim, claims) else claim["verdict_note"]


def _only_a_lost_load(claim, claims):
    """Whether the claim surely has all else that `engine.verdicts` asks for in "supported".

    Of a voltage that is in question it cannot be told from a report whether somebody saw it.
    """
    if claim["verdict"] != "possible" or claim["plausibility_voltage"] is not None or min(
            claim["plausibility"], claim["plausibility_power"] or 0.0) < 0.9:
        return False
    of_power = [weight for weight in claim["weights"] if weight["line"].startswith("power/")]
    held = any(one["kind"] == PASSED and one["decibans"] >= WEAK for one in of_power)
    firm = any(one["kind"] != PRACTICE and abs(one["decibans"]) >= WEAK for one in of_power)
    return firm and (held or not _is_lesser(claim, claims)) and _stands_without_tests(claim)


def _stands_without_tests(claim):
    """Whether the rest is enough, should all tests that were passed lie far below the claim."""
    lifted = sum(max(one["decibans"], 0.0) for one in claim["weights"] if one["kind"] == PASSED)
    return lifted == 0 or claim["total_decibans"] - lifted >= ENOUGH


def _is_lesser(claim, claims):
    """At a lower voltage than the unit's highest."""
    highest = max((one["voltage"] or 0.0 for one in claims), default=0.0)
    return claim["voltage"] is not None and claim["voltage"] < (1 - SAME_VOLTAGE) * highest
