"""Plugs as people name them."""
import pytest

from teardowns.engine.requirements.barriers import PLUG_MAINS
from teardowns.reading.plug import NAMES, plug_kind


@pytest.mark.parametrize("text, kind", [
    ("europlug", "europlug"), ("Euro plug", "europlug"), ("C", "europlug"), ("type G", "bs1363"),
    ("BS 1363", "bs1363"), ("flat blades", "nema1"), ("NEMA 1-15P", "nema1"), ("A", "nema1"),
    ("c8 inlet", "inlet"), ("IEC 60320 C14", "inlet"), ("Schuko", "schuko"), ("I", "as3112"),
    ("wall box", ""), ("", ""), ("cc", "")])
def test_kinds(text, kind):
    assert plug_kind(text) == kind


def test_every_plug_of_a_country_has_its_mains_voltage():
    assert PLUG_MAINS.keys() == NAMES.keys() - {"inlet"}
