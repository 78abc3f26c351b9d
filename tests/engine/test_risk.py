"""Risk levels: exact fractions, strict bands, one band up and down."""
from fractions import Fraction

import pytest

from teardowns.engine.risk import BANDS, MATRIX, ORDER, band_of, highest, risk

F = Fraction


# A folding chair, severity 1, 1/50 · 1/10: low, in Decision 2010/15/EU and 2019/417, section 6.1.
# The finger fracture (severity 2) and the socket protector (27/160 000) are recalled from there.
# The others by hand: 1/20 000 exceeds 1/100 000, 1/2000 exceeds 1/10 000, 0.6 exceeds 1/2.
@pytest.mark.parametrize("severity, steps, level, levels", [
    (1, ["1", "1/50", "1/10", "1"], "low", ("medium", "low", "low")),
    (2, ["1/500"], "high", ("serious", "high", "medium")),
    (4, ["27/160000"], "serious", ("serious", "serious", "high")),
    (4, ["1/20000"], "high", ("serious", "high", "medium")),
    (3, ["1/2000"], "high", ("serious", "high", "medium")),
    (1, ["0.6"], "high", ("high", "high", "medium")),
    (4, ["1/400"], "serious", ("serious", "serious", "serious")),
])
def test_levels(severity, steps, level, levels):
    found = risk(severity, steps)
    assert (found.level, found.levels) == (level, levels)


def test_one_in_a_hundred_does_not_exceed_one_in_a_hundred():
    assert BANDS[band_of(F(1, 100))] == F(1, 1000) and BANDS[band_of(F(1, 99))] == F(1, 100)
    assert band_of(F(1, 1_000_000)) == 7 and band_of(F(1)) == 0


def test_the_ends_of_the_bands_have_no_neighbour_beyond():
    assert risk(4, ["1"]).levels == ("serious",) * 3
    assert risk(4, ["1/10000000"]).levels == ("medium", "low", "low")


def test_more_probable_and_more_severe_are_never_less_grave():
    ranks = [[ORDER.index({"S": "serious", "H": "high", "M": "medium", "L": "low"}[letter])
              for letter in MATRIX[severity]] for severity in (1, 2, 3, 4)]
    assert all(row == sorted(row, reverse=True) for row in ranks)
    assert all(low <= high for one, next_ in zip(ranks, ranks[1:], strict=False)
               for low, high in zip(one, next_, strict=True))


def test_the_gravest_level_wins_and_none_is_none():
    assert highest(["medium", "serious", "low"]) == "serious" and highest([]) == ""
