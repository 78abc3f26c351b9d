"""Why a word stays behind the plausibility beside it."""
from teardowns.engine.rule import PASSED
from teardowns.engine.verdicts import WEAK

LESS_WAS_LOST = ("A load smaller than this was lost at an output that nobody named, and it may "
                 "have been this one: a load of the whole rating, held here, would decide.")


def note_on_word(claim: dict) -> str:
    """The engine's own note, but where a smaller load that was lost is all that is in the way."""
    return LESS_WAS_LOST if _only_a_lost_load(claim) else claim["verdict_note"]


def _only_a_lost_load(claim):
    """Whether the claim has all else that "supported" asks for, a load that was held among it."""
    return (claim["verdict"] == "possible" and claim["plausibility"] >= 0.9
            and (claim["plausibility_power"] or 0.0) >= 0.9
            and any(weight["kind"] == PASSED and weight["decibans"] >= WEAK
                    and weight["line"].startswith("power/") for weight in claim["weights"]))
