"""Why a word stays behind its plausibility."""
import pytest

from teardowns.presenting.verdict_notes import LESS_WAS_LOST, note_on_word

HELD = {"line": "power/sustained_power", "kind": "passed", "decibans": 20.0}
LIMIT = {"line": "power/bulk_capacitor", "kind": "limit", "decibans": 3.0}
HABIT = {"line": "power/mass_per_watt", "kind": "practice", "decibans": 12.0}
KEPT_BACK = {"verdict": "possible", "plausibility": 0.97, "plausibility_power": 0.97,
             "plausibility_voltage": None, "voltage": 5.0, "weights": [HELD],
             "total_decibans": 30.0, "verdict_note": "The engine's note."}
NINE_VOLTS = {"voltage": 9.0}


def note(change, *others):
    claim = KEPT_BACK | change
    return note_on_word(claim, [claim, *others])


@pytest.mark.parametrize("change, others", [
    ({}, []), ({}, [NINE_VOLTS]), ({"weights": [LIMIT, HABIT]}, []), ({"voltage": None}, []),
])
def test_a_claim_with_all_else_was_kept_back_by_a_smaller_load_that_was_lost(change, others):
    assert note(change, *others) == LESS_WAS_LOST


@pytest.mark.parametrize("change, others", [
    ({"verdict": "supported"}, []), ({"plausibility": 0.89}, []),
    ({"plausibility_power": 0.89}, []), ({"plausibility_power": None}, []),
    ({"weights": [HABIT]}, []), ({"weights": [HELD | {"decibans": 2.9}]}, []),
    ({"weights": [HELD | {"line": "voltage/offered_voltage"}]}, []),
    ({"weights": [LIMIT]}, [NINE_VOLTS]), ({"plausibility_voltage": 0.99}, []),
    ({"total_decibans": 29.5}, []),      # without the 20 of the test no 9 : 1, which are 9.54
])
def test_else_the_note_is_the_engine_s(change, others):
    assert note(change, *others) == "The engine's note."
