"""Voltage mark of the fuse."""
import pytest

from tests.engine.rules.safety.asked import grade_of
from tests.engine.rules.safety.monotone import more_is_never_better, more_is_never_worse


# Rule of IEC 62368-1, G.3.4: at least the rated mains voltage.
@pytest.mark.parametrize("volts, state, expected", [
    (250.0, "recorded", "meets"), (125.0, "recorded", "falls short"),
    (float("nan"), "not_readable", "cannot tell"), (250.0, "not_found", None),
    (250.0, "not_looked", None)])
def test_grades(volts, state, expected):
    assert grade_of("fuse_voltage", role="fuse", state=state, part_voltage=volts,
                    rated_voltage_high=240.0) == expected


# A 125 V fuse is usual in a unit for 120 V: without the plate it accuses nobody, and the plug of
# 120 V countries settles it.
def test_an_unread_plate_accuses_no_fuse_for_120_v():
    assert grade_of("fuse_voltage", role="fuse", state="recorded",
                    part_voltage=125.0) == "cannot tell"
    assert grade_of("fuse_voltage", role="fuse", state="recorded", part_voltage=125.0,
                    plug="nema1") == "meets"


def test_a_higher_mark_is_never_worse_and_higher_mains_are_never_better():
    more_is_never_worse("fuse_voltage", "part_voltage")
    more_is_never_better("fuse_voltage", "rated_voltage_high")
