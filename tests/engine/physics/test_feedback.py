"""The truth table of feedback arrangements, all twelve rows."""
import numpy as np
import pytest

from teardowns.engine.physics.feedback import (
    ANY,
    DEFECT,
    FLAGS,
    NO,
    TABLE,
    YES,
    matching_row,
    switchable_ratio,
)

BOTH_SIDES, ONE_SIDE, NONE = 2.0, 1.0, 0.0
# isolated, primary, decodes, protocol, node driven, converter, switch: as the table is printed,
# "-" and "any" as None; iso_ctrl counts as isolated.
PRINTED = {
    "F1": ((0, 1, 0, 0, 0, 0, None), NO), "F2": ((0, 1, 0, 1, 0, 0, None), NO),
    "F3": ((0, 1, 1, 0, 0, 0, None), YES), "F4": ((1, 0, 0, 0, 0, 0, None), NO),
    "F5": ((1, 0, 0, 1, 0, 0, None), NO), "F6": ((1, 0, 0, 1, 1, 0, None), YES),
    "F7": ((1, None, None, 1, 1, 0, None), YES),
    "F8": ((None, None, None, 1, None, 1, None), YES),
    "F9": ((None, None, None, 0, 0, 1, None), NO),
    "F10": ((1, 0, 0, 1, 1, 0, 0), YES), "F11": ((0, 0, 0, None, None, 0, None), NO),
    "F12": ((0, 1, 0, 1, 1, 0, None), DEFECT),
}
by_row = pytest.mark.parametrize("row", PRINTED)


def ratio(flags, sides=BOTH_SIDES):
    seen = np.array([[np.nan if flag is ANY else float(flag)] for flag in flags])
    return float(switchable_ratio(seen, np.array([sides]))[0])


def observed(flags):
    return {name: np.nan if flag is ANY else flag for name, flag in zip(FLAGS, flags, strict=True)}


@by_row
def test_the_table_is_as_printed(row):
    found = next(a for a in TABLE if a.row == row)
    assert (found.flags, found.switchable) == PRINTED[row]


@by_row
def test_each_row_is_recognised(row):
    assert matching_row(observed(PRINTED[row][0])).row == row


@by_row
def test_each_row_pushes_its_own_way(row):
    flags, switchable = PRINTED[row]
    if switchable != DEFECT:
        assert (ratio(flags) > 1) is (switchable == YES)


def test_a_row_is_not_guessed_from_half_of_its_facts():
    assert matching_row(observed((1, ANY, ANY, 1, ANY, 0, ANY))) is None


def test_nothing_looked_at_says_nothing():
    assert ratio((ANY,) * 7) == 1.0


def test_not_seen_is_not_absent():
    # F2, the protocol chip without a path: the fewer sides photographed, the less it says.
    f2 = PRINTED["F2"][0]
    assert ratio(f2, BOTH_SIDES) < ratio(f2, ONE_SIDE) < ratio(f2, NONE) < 1


def test_a_missed_trace_leaves_a_chance_of_one_in_ten_on_the_side_of_f5():
    # P(trace missed) = 0.1 times P(switchable row is F6) = 1/3 against P(fixed row is F5) = 1/6:
    # 0.2, other rows and parts missed or mistaken add little.
    assert ratio(PRINTED["F5"][0]) == pytest.approx(0.2, abs=0.02)


def test_one_gives_the_bits_of_many():
    rng = np.random.default_rng(1)
    seen = rng.choice([0.0, 1.0, np.nan], (7, 300))
    sides = rng.integers(0, 3, 300).astype(float)
    many = switchable_ratio(seen, sides)
    assert switchable_ratio(seen[:, [7]], sides[[7]]).tobytes() == many[[7]].tobytes()
