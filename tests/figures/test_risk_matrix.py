"""The matrix: a letter in every cell, one solid frame, two dashed ones."""
import re

from teardowns.engine.risk import BAND_WORDS, MATRIX
from teardowns.figures.risk_matrix import risk_matrix


def cells(markup):
    return re.findall(r'<td class="([SHML])( here| band)?">', markup)


def test_every_cell_has_its_letter():
    found = [letter for letter, _ in cells(risk_matrix("A scenario", 4, 4))]
    assert found == [MATRIX[severity][band] for band in range(len(BAND_WORDS))
                     for severity in (1, 2, 3, 4)]


def test_the_scenario_has_a_solid_frame_and_its_neighbours_dashed_ones():
    marks = [mark.strip() for _, mark in cells(risk_matrix("A scenario", 4, 4))]
    assert marks.count("here") == 1 and marks.count("band") == 2
    assert marks.index("here") == 4 * 4 + 3             # fifth band, fourth severity


def test_at_an_end_there_is_one_neighbour():
    marks = [mark.strip() for _, mark in cells(risk_matrix("A scenario", 1, 0))]
    assert marks.count("band") == 1


def test_it_names_its_scenario_and_says_in_words_where_it_lies():
    markup = risk_matrix("Loose <metal>", 4, 4)
    assert "Loose &lt;metal&gt;" in markup and "this scenario" in markup
