import pytest

from teardowns.forms.section_places import place_of


@pytest.mark.parametrize("kind, which, place", [
    ("measurement", "mass_total", ("outside", "mass-total")),
    ("measurement", "failed_power", ("load", "loads")),
    ("component", "optocoupler", ("output-side", "optocoupler")),
    ("printedtext", "listing", ("printed", "texts")),
    ("claim", "output", ("printed", "claims")), ("port", "Port 1", ("ports", "ports")),
    ("stacklayer", "3", ("transformer", "stack")),
    ("insulationobservation", "L_N", ("barrier", "distances"))])
def test_a_row_has_its_place(kind, which, place):
    assert place_of(kind, which) == place


def test_what_no_section_asks_for_has_none():
    assert place_of("photo", "plate") is None
