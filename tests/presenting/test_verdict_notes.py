"""Why a word stays behind its plausibility."""
import pytest

from teardowns.presenting.verdict_notes import LESS_WAS_LOST, note_on_word

HELD = {"line": "power/sustained_power", "kind": "passed", "decibans": 20.0}
KEPT_BACK = {"verdict": "possible", "plausibility": 0.97, "plausibility_power": 0.97,
             "weights": [HELD], "verdict_note": "The engine's note."}


def test_a_claim_with_all_else_was_kept_back_by_a_smaller_load_that_was_lost():
    assert note_on_word(KEPT_BACK) == LESS_WAS_LOST


@pytest.mark.parametrize("change", [
    {"verdict": "supported"}, {"plausibility": 0.89}, {"plausibility_power": 0.89},
    {"plausibility_power": None}, {"weights": []}, {"weights": [HELD | {"decibans": 2.9}]},
    {"weights": [HELD | {"line": "voltage/offered_voltage"}]}, {"weights": [HELD | {
        "kind": "limit"}]},
])
def test_else_the_note_is_the_engine_s(change):
    assert note_on_word(KEPT_BACK | change) == "The engine's note."
