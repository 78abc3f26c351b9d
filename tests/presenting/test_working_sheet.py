"""What a calculation sheet says beside its numbers."""
import pytest

from teardowns.engine.explain import explain
from teardowns.models import Unit
from teardowns.presenting.working_sheet import working_sheet
from tests.engine.make import WIDE, judge, watts
from tests.figures.sample_report import REPORT

CASE = [("case_height", 0.05, 1e-3, *[float("nan")] * 2, -1, 7),
        ("case_width", 0.04, 1e-3, *[float("nan")] * 2, -1, 7),
        ("case_depth", 0.03, 1e-3, *[float("nan")] * 2, -1, 7)]
HALF = [("bulk_capacitance", 1e-5, 1e-7), ("rectifier_full_wave", 0.0, 0.0)]


class Anything(dict):
    """Names for whatever evidence is cited."""

    def __missing__(self, ref):
        return type("Cited", (), {"name": ref, "how": "measured"})


def sheet(rows, line):
    trace = explain(judge([*WIDE, *rows], [watts(12.0)]), 0, line, "low")
    return working_sheet(Unit(pk=7), REPORT, trace, "low", "", Anything())


def test_it_says_which_inputs_other_lines_read_too():
    assert sheet(HALF, "power/bulk_capacitor")["caveats"][0].startswith(
        "Other lines read the efficiency at full load too")


def test_it_says_how_far_a_line_is_trusted():
    # One bridge in fifty is miscounted; behind a bridge 1.190/0.457 = 2.6 times as much.
    assert any("in 50 is taken to be mistaken, with a limit 2.6 times as high" in caveat
               for caveat in sheet(HALF, "power/bulk_capacitor")["caveats"])


def test_it_says_that_mass_may_do_nothing():
    (caveat,) = sheet([("mass_total", 0.05, 1e-4)], "power/mass_per_watt")["caveats"]
    assert "with a power 0.50 times as high" in caveat and "does this line support" in caveat


def test_a_limit_says_that_its_reading_may_be_mistaken():
    # Of readings 0.005 are gross mistakes: one in 200.
    told = sheet(HALF, "power/bulk_capacitor")["caveats"]
    assert any(caveat.startswith("One reading in 200 is taken") for caveat in told)


@pytest.mark.parametrize("scale, shown", [(7, True), (-1, False)])
def test_lengths_from_one_photo_add_a_part_to_the_budget(scale, shown):
    rows = [(*row[:-1], scale) for row in CASE]
    assert ("The photo scale" in sheet(rows, "power/enclosure_heat")["budget"]) is shown


def test_a_line_about_voltage_stands_at_the_mains_voltage_that_it_was_asked_at():
    # The rated range of the report is 100 to 240 V; a power line is read at the end that is shown.
    rectifier = [("rectifier_voltage_rating", 40.0, 0.0), ("primary_turns", 78.0, 0.0),
                 ("secondary_turns", 6.0, 0.0)]
    trace = explain(judge([*WIDE, *rectifier], [(20.0, 1.0, float("nan"), "usb_c")]), 0,
                    "voltage/rectifier_rating", "low")
    shown = working_sheet(Unit(pk=7), REPORT, trace, "low", "", Anything())
    assert shown["mains"].startswith("240") and sheet(HALF, "power/bulk_capacitor")[
        "mains"].startswith("100")
