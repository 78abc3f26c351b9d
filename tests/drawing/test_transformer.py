from itertools import pairwise

import pytest

from teardowns.drawing.transformer import transformers

from .units import demo, document, drawn


def test_each_layer_is_marked_once_from_the_core_outward():
    marks = [m for m in drawn("09")["transformer"].marks if m.shows.startswith("winding/")]
    assert [m.shows[8:] for m in marks] == [row["key"] for row in demo("09")["stack"]]
    assert all(above.points[1][1] < below.points[0][1] for above, below in pairwise(marks))


def test_the_wires_that_face_the_viewer_are_as_many_as_the_turns():
    # Eight turns of one 0.5 mm wire on an EE19 core: 4.5 mm of some 9 mm, so all eight are seen.
    unit = document(stack=[{"key": "p", "position": 1, "kind": "winding", "winding": "primary",
                            "turns": 8, "strands": 1, "bare_diameter": 5e-4,
                            "wire_insulation": "enamel"}],
                    components=[{"key": "c", "role": "core", "marking": "EE19"}])
    (picture,) = transformers(unit)
    mark = next(m for m in picture.marks if m.shows == "winding/p")
    (left, top), (right, bottom) = mark.points
    y = round((top + bottom) / 2)
    pixels = (picture.image.getpixel((x, y)) for x in range(int(left) + 4, int(right) - 4))
    reddish = [red > blue + 60 and red < 200 for red, _, blue in pixels]
    assert sum(b and not a for a, b in pairwise(reddish)) == 8


def test_a_wire_measured_with_the_ruler_has_its_outer_diameter():
    # Twelve turns of 0.36 mm with enamel of 12 % lie side by side: 12 · 0.36 · 1.12 = 4.84 mm.
    picture = drawn("07")["transformer"]
    (a, b), (length,) = picture.scale.points, picture.scale.lengths
    mark = next(m for m in picture.marks if m.shows == "winding/primary-1")
    (left, top), (right, bottom) = mark.points
    y = round(bottom) - 6
    reddish = [x for x in range(int(left) + 4, int(right) - 4)
               if (lambda p: p[0] < 200)(picture.image.getpixel((x, y)))]
    span = (reddish[-1] - reddish[0] + 1) / (b[0] - a[0]) * length
    assert span == pytest.approx(4.84e-3, abs=0.1e-3)


def test_a_layer_of_tape_that_was_not_found_is_left_open():
    picture = drawn("19")["transformer"]
    mark = next(m for m in picture.marks if m.shows == "winding/tape-1")
    (left, top), (right, bottom) = mark.points
    inside = picture.image.crop((int(left) + 20, int(top) + 8, int(left) + 120, int(bottom) - 8))
    assert len(inside.getcolors()) == 1         # bare paper


def test_the_words_name_turns_wire_and_insulation():
    alt = drawn("01")["transformer"].alt
    assert "1 primary winding" in alt and "3 secondary winding" in alt


def test_a_layer_that_could_not_be_told_is_an_open_frame_with_its_state():
    unit = document(stack=[{"key": "w", "position": 1, "kind": "winding", "winding": "primary",
                            "state": "not_readable"}])
    (picture,) = transformers(unit)
    assert [m.shows for m in picture.marks] == ["winding/w"]


def test_a_unit_whose_transformer_stayed_whole_has_no_picture_of_layers():
    assert transformers(document()) == []
