"""Something that opens in the mains lead."""
import pytest

from tests.engine.rules.safety.asked import grade_of

NONE = {"found_fuse": 0.0, "found_fusible_resistor": 0.0}


# IEC 62368-1, 6.3 and 6.4.3: a protective part, or nothing where the path was traced.
@pytest.mark.parametrize("known, expected", [
    ({"found_fuse": 1.0}, "meets"), (NONE | {"line_path_traced": 1.0}, "falls short"),
    (NONE, "cannot tell"), ({}, "cannot tell"), ({"track_as_fuse": 1.0}, "falls short"),
    ({"found_fuse": 1.0, "part_before_fuse": 1.0}, "cannot tell"),
    ({"found_fuse": 0.0, "found_fusible_resistor": 1.0}, None),
    (NONE | {"line_path_traced": 1.0, "part_before_fuse": 1.0}, "falls short"),
    (NONE | {"track_as_fuse": 1.0, "part_before_fuse": 1.0}, "falls short"),
])
def test_grades(known, expected):
    assert grade_of("mains_protection", **known) == expected
