"""Drawings in characters."""
import pytest

from teardowns.management.terminal_figures import (
    AXIS,
    BAR,
    cell,
    columns_of,
    power_axis,
    power_scale,
    weight_bar,
)


def test_full_width_characters_take_two_columns_and_accents_none():
    assert columns_of("５V") == 3
    assert columns_of("e\u0301") == 1


@pytest.mark.parametrize("text", ["", "5V", "出力：５Ｖ＝３Ａ、９Ｖ＝２Ａ、１２Ｖ", "x" * 40])
def test_a_cell_is_as_wide_as_it_was_asked_for(text):
    assert columns_of(cell(text, 22)) == 22


def test_a_scale_leaves_room_on_both_sides_in_round_numbers():
    assert power_scale([5.0, 12.0]) == (2.0, 20.0)
    assert power_scale([0.9]) == (0.5, 1.0)


def test_the_middle_of_a_logarithmic_axis_is_the_geometric_mean():
    # 1 W to 100 W: 10 W lies half-way, at 0.5 of the 43 steps between the 44 characters.
    line = power_axis((1.0, 100.0), (10.0, 10.0), 10.0, None)
    assert line.index("◆") in (21, 22)
    assert len(line) == AXIS


def test_a_claim_is_marked_where_it_lies():
    line = power_axis((1.0, 100.0), (2.0, 5.0), 3.0, 50.0)
    assert line.index("━") < line.index("◆") < line.index("┃")


def test_bars_push_to_their_side_and_never_beyond_their_half():
    assert weight_bar(30.0) == " " * BAR + "│" + "█" * BAR
    assert weight_bar(-15.0) == " " * (BAR // 2) + "█" * (BAR // 2) + "│"
    assert weight_bar(300.0).endswith("▶")
    assert weight_bar(-300.0).startswith("◀")
    assert weight_bar(0.0).strip() == "│"
