import re

import pytest

from teardowns.figures.load_curves import (
    Band,
    LoadCurve,
    LoadCurves,
    load_curve_table,
    load_curves,
    voltage_at,
)

from .drawing import of_class, parsed, share, words

STIFF = LoadCurve("Veltrice VQ-45, 9 V", ((0.0, 9.1), (1.0, 9.0), (2.0, 8.9)))
SOFT = LoadCurve("Orbanel <O/2>", ((0.0, 9.2), (1.0, 8.2)), "/units/2/")


def drawn(curves=(STIFF, SOFT), bands=(), with_power=False):
    return parsed(load_curves(LoadCurves("c", "Curves", "Says", curves, bands, with_power)))


def test_each_curve_ends_in_its_letter():
    letters = of_class(drawn(), "log-letter")
    assert {node.text: share(node, "x") for node in letters} == {
        "A": pytest.approx(80), "B": pytest.approx(40)}       # the axis: 2 A · 1.08 → 0 to 2.5 A


def test_letters_at_one_place_move_apart():
    same = [LoadCurve("same", STIFF.points)] * 3
    heights = sorted(float(node.get("y")) for node in of_class(drawn(tuple(same)), "log-letter"))
    assert heights[1] - heights[0] >= 13 and heights[2] - heights[1] >= 13    # the size of type


def test_curves_differ_without_colour():
    lines = of_class(drawn(), "log-line")
    assert len({line.get("stroke-dasharray") for line in lines}) == 2
    assert len({mark.get("d") for mark in of_class(drawn(), "log-mark")}) == 2


def test_a_band_is_drawn_with_its_name():
    tree = drawn(bands=(Band(8.55, 9.45, "9 V ± 5 %"),))
    assert len(of_class(tree, "log-band")) == 1 and "9 V ± 5 %" in words(tree)


def test_power_gets_a_panel_of_its_own():
    assert "Output power, W" in words(drawn(with_power=True))
    assert len(of_class(drawn(with_power=True), "log-line")) == 4


def test_it_has_a_title_and_a_description():
    tree = drawn()
    (figure,) = of_class(tree, "log-drawing")
    assert figure.get("aria-labelledby") == "c-title" and figure.get("role") == "img"
    assert not re.search(r"\bstyle=", load_curves(LoadCurves("c", "", "", (STIFF,))))


def test_no_curve_at_all_can_be_drawn():
    assert drawn(()) is not None


def test_a_voltage_between_readings_is_interpolated_and_beyond_them_unknown():
    assert voltage_at(STIFF, 0.5) == pytest.approx(9.05)      # halfway from 9.1 V to 9.0 V
    assert voltage_at(SOFT, 1.5) != voltage_at(SOFT, 1.5)     # NaN


def test_the_table_names_each_curve_by_its_letter():
    table = parsed(load_curve_table("Voltages", (STIFF, SOFT), "{:.2f} V".format))
    said = words(table)
    assert "A: Veltrice VQ-45, 9 V" in said and "B: Orbanel <O/2>" in said
    assert "not recorded" in said and "8.20 V" in said
    assert table.find(".//a").get("href") == "/units/2/"


def test_a_curve_may_bear_a_name_of_its_own():
    named = [LoadCurve("A unit", STIFF.points, name="A2"), SOFT]
    letters = [node.text for node in of_class(drawn(named), "log-letter")]
    assert set(letters) == {"A2", "B"}
    assert "A2: A unit" in load_curve_table("Caption", named, str)
