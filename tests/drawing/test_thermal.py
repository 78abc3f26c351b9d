import pytest

from teardowns.drawing.board import board_of
from teardowns.drawing.thermal import thermal_maps

from .units import demo, document, drawn


def test_each_temperature_inside_is_a_point_on_the_part_it_belongs_to():
    marks = {m.shows: m for m in drawn("09")["thermal"].marks}
    assert set(marks) == {f"measurement/{key}-temperature"
                          for key in ("transformer", "switch", "rectifier", "bulk")}
    box = next(m for m in drawn("09")["component-side"].marks if m.shows == "component/core")
    ((x, y),) = marks["measurement/transformer-temperature"].points
    assert box.points[0][0] < x < box.points[1][0] and box.points[0][1] < y < box.points[1][1]


def test_a_hotter_reading_has_a_lighter_shade():
    picture = drawn("09")["thermal"]                    # switch 99 °C, bulk capacitors 82 °C
    light = {}
    for mark in picture.marks:
        ((x, y),) = mark.points
        light[mark.shows] = picture.image.convert("L").getpixel((int(x) - 24, int(y) + 24))
    assert light["measurement/switch-temperature"] > light["measurement/bulk-temperature"]


def test_shades_grow_lighter_along_the_legend():
    strip = drawn("09")["thermal"].image.convert("L").crop((430, 918, 1170, 920))
    row = [strip.getpixel((x, 0)) for x in range(0, 740, 20)]
    assert row == sorted(row) and row[-1] - row[0] > 120


def test_the_words_say_what_was_measured_and_what_was_not():
    picture = drawn("09")["thermal"]
    assert "95 °C" in picture.alt and "only the numbers were measured" in picture.caption.lower()


@pytest.mark.parametrize("number", ["25", "28", "37"])
def test_a_unit_without_temperatures_inside_has_no_map(number):
    assert thermal_maps(demo(number)) == []


def test_a_temperature_of_a_part_that_nobody_recorded_has_no_place():
    unit = document(components=[{"key": "f", "role": "fuse", "designator": "F1"}],
                    measurements=[{"key": "t", "quantity": "transformer_temperature",
                                   "value": 90.0}])
    assert board_of(unit) and thermal_maps(unit) == []
