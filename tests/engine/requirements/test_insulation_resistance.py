"""Figures of the insulation resistance."""
from teardowns.engine.requirements.insulation_resistance import HIGH, LOW


def test_the_lowest_and_the_highest_figure():
    # VDE 0701-0702, class II: 2 MΩ; IEC 61558-1, reinforced: 7 MΩ (from memory).
    assert (LOW, HIGH) == (2e6, 7e6)
