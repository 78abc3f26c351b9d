from teardowns.drawing.legend import draw_legend, entry_of, not_found
from teardowns.drawing.sheet import Sheet

from .units import document


def test_an_entry_names_the_part_by_its_designator_role_and_marking():
    row = document(components=[{"key": "y", "role": "barrier_capacitor", "designator": "CY1",
                                "marking": "Y1 222M"}])["components"][0]
    assert entry_of(row) == ("CY1", "barrier capacitor  Y1 222M")


def test_a_marking_that_could_not_be_read_is_said_to_be_so():
    row = document(components=[{"key": "u", "role": "primary_controller", "designator": "U1",
                                "state": "not_readable"}])["components"][0]
    assert entry_of(row) == ("U1", "primary controller, marking not readable")


def test_what_was_looked_for_and_not_found_is_listed_and_what_nobody_looked_for_is_not():
    unit = document(components=[{"key": "f", "role": "fuse", "state": "not_found"},
                                {"key": "o", "role": "optocoupler", "state": "not_looked"}])
    assert not_found(unit) == "Looked for and not found: fuse"
    assert not_found(document()) == ""


def test_a_long_list_stays_above_the_foot_of_the_sheet():
    plain, full = Sheet("T"), Sheet("T")
    draw_legend(full, [(f"C{i}", "output capacitor, 820 µF 25 V")
                       for i in range(45)], "Looked for and not found: fuse")
    foot = (0, 1140, 1600, 1200)
    assert full.finished().crop(foot).tobytes() == plain.finished().crop(foot).tobytes()
