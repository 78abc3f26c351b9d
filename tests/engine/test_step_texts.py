"""Instructions for the bench."""
from dataclasses import dataclass
from math import nan

import pytest

from teardowns.engine.step_texts import label, load_text, readings_text, voltage_text


@dataclass
class Asked:
    power: float = 45.0
    voltage: float = 20.0
    current: float = 2.25
    mains: float = 100.0


def plain(text):
    return text.replace("\u202f", " ")


def test_readings_are_grouped_by_their_tool():
    assert readings_text(["case_height", "mass_total", "case_width"]) == (
        "Measure with a calliper: case height, case width. Weigh: mass of the whole unit.")


@pytest.mark.parametrize("code, said", [
    ("bulk_capacitance_marked", "marking of the bulk capacitors"),
    ("case_height", "case height"),
    ("port_converter", "DC-DC converter per port"),       # a name keeps its capitals
    ("x_capacitance", "capacitance across the mains"),
])
def test_a_label_stands_in_a_sentence(code, said):
    assert label(code) == said


def test_a_load_test_names_the_load_the_rating_and_the_mains():
    assert plain(load_text(Asked())) == (
        "Load it with 45 W (20 V, 2.25 A) for ten minutes at 100 V mains: does it stay in "
        "regulation?")
    assert "(" not in load_text(Asked(voltage=nan, current=nan))


def test_a_voltage_is_asked_for_or_measured():
    assert "by its protocol" in voltage_text(Asked(), switched=True)
    assert "without a load" in voltage_text(Asked(), switched=False)
