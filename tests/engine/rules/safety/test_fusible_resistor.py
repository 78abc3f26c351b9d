"""Resistors that protect as a fuse does."""
import pytest

from tests.engine.rules.safety.asked import grade_of


# Rule: a known fusible type is accepted, an unknown one is not decided.
@pytest.mark.parametrize("cited, state, expected", [
    (1.0, "recorded", "meets"), (0.0, "recorded", "cannot tell"), (1.0, "not_found", None)])
def test_grades(cited, state, expected):
    assert grade_of("fusible_resistor", role="fusible_resistor", state=state,
                    cited=cited) == expected
