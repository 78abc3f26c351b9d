"""IEC 62368-1, F.3.6: a plug without earth asks for the class II mark."""
import pytest

from teardowns.engine.outcome import CANNOT_TELL, CONSISTENT, INCONSISTENT
from teardowns.engine.rules.checks.protection_class import protection_class
from tests.engine.make import NAN


@pytest.mark.parametrize("plug, marks, faces, expected", [
    ("europlug", " class_ii ce ", NAN, CONSISTENT), ("europlug", " ce ", 1.0, INCONSISTENT),
    ("europlug", " ce ", NAN, CANNOT_TELL), ("nema5", " class_ii ", 1.0, CANNOT_TELL)])
def test_marks_beside_plugs(plug, marks, faces, expected):
    assert protection_class(plug, marks, faces).outcome == expected


@pytest.mark.parametrize("plug, marks", [("", " ce "), ("europlug", ""), ("schuko", " ce ")])
def test_what_says_nothing(plug, marks):
    assert protection_class(plug, marks, 1.0) is None
