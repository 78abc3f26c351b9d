"""The line over the truth table, its twelve rows by rule and by name.

The table as printed: tests/engine/physics/test_feedback.py. A part is missed in 0.05 with both
sides photographed, in 0.4 with one, in 0.6 with none (from memory).
"""
import numpy as np
import pytest

from teardowns.engine.feedback import feedback
from teardowns.engine.physics.feedback import DEFECT, FLAGS, NO, TABLE, YES, switchable_ratio
from teardowns.engine.rules.voltage.feedback_path import feedback_path
from tests.engine.make import NAN, WIDE, judge, weight
from tests.engine.physics.test_feedback import PRINTED
from tests.engine.rules.ask import line, questions

ID = "voltage/feedback_path"
BRIDGED = "feedback_bridges_barrier"
ROWS = {a.row: {name: NAN if flag is None else float(flag)
                for name, flag in zip(FLAGS, a.flags, strict=True)} for a in TABLE}
NOT_LOOKED = dict.fromkeys(FLAGS, NAN)
USB_C = [(20.0, 2.25, NAN, "usb_c"), (5.0, 3.0, NAN, "usb_c")]
KIND = {row: kind for row, (_, kind) in PRINTED.items()}
FIXED = [row for row, kind in KIND.items() if kind == NO]
SWITCHED = [row for row, kind in KIND.items() if kind == YES]
by_row = pytest.mark.parametrize("row", PRINTED)


def unit(flags, *observations, sides=2.0):
    return [*WIDE, ("photographed_sides", sides, 0.0), *observations,
            *((name, flag, 0.0) for name, flag in flags.items() if not np.isnan(flag))]


def ratio(flags, bridged=NAN, sides=2.0):
    values = [*(flags[name] for name in FLAGS), bridged, sides]
    return float(feedback_path(*(np.array([value]) for value in values))[0])


def said(flags, *observations, **rest):
    return feedback(judge(unit(flags, *observations, **rest), USB_C).frame, 0)


def moved(row, **rest):
    return weight(judge(unit(ROWS[row], **rest), USB_C), ID)


@pytest.mark.parametrize("row", [row for row in ROWS if row != "F12"])
def test_it_is_the_ratio_of_the_table(row):
    seen = np.array([[ROWS[row][name]] for name in FLAGS])
    assert ratio(ROWS[row]) == float(switchable_ratio(seen, np.array([2.0]))[0])


def test_f12_is_a_defect_and_not_scored():
    assert np.isnan(ratio(ROWS["F12"]))
    assert np.isnan(ratio(ROWS["F6"], bridged=1.0))


def test_nothing_looked_at_makes_no_line():
    assert np.isnan(ratio(dict.fromkeys(FLAGS, NAN)))


def test_a_protocol_chip_without_a_path_speaks_against_9_volts():
    seen = [(name, flag, 0.0) for name, flag in ROWS["F2"].items() if not np.isnan(flag)]
    done = judge([*WIDE, *seen, ("photographed_sides", 2.0, 0.0)], [(9.0, NAN, NAN, "usb_a")])
    assert weight(done, ID) < -3


@by_row
def test_each_row_by_rule(row):
    found = ratio(ROWS[row])
    assert np.isnan(found) if KIND[row] == DEFECT else (found > 1) is (KIND[row] == YES)


@by_row
def test_each_row_by_name(row):
    assert said(ROWS[row])["row"] == row


@by_row
def test_each_row_has_the_chance_of_its_side(row):
    chance = said(ROWS[row])["switchable"]
    if KIND[row] == DEFECT:
        assert chance is None
    else:
        assert 0.5 < chance < 1 if KIND[row] == YES else 0 < chance < 0.5


# The optocoupler found with both sides photographed, nothing else looked at: seen 0.95 where it
# is, 0.01 where it is not, 0.48 where the row leaves it open.
# F3, F6, F8: (0.01 + 0.95 + 0.48)/3 = 0.48.
# F1, F2, F4, F5, F9, F11: (0.01 + 0.01 + 0.95 + 0.95 + 0.48 + 0.01)/6 = 0.40167.
# One side: 0.6, 0.01, 0.305, thus 0.305 and 0.25583.
@pytest.mark.parametrize("sides, expected", [(2.0, 0.48 / 0.40167), (1.0, 0.305 / 0.25583)])
def test_an_optocoupler_alone_says_little(sides, expected):
    found = ratio(NOT_LOOKED | {"isolated_feedback": 1.0}, sides=sides)
    assert found == pytest.approx(expected, rel=1e-4)


def test_a_trace_may_have_been_missed_on_the_side_of_f5():
    # F5 against F6, which differ in the connection alone, missed in 0.1: 0.1 · 1/3 against
    # 0.99 · 1/6, 0.202. Other rows add little: 0.20/1.20 = 0.17.
    assert said(ROWS["F5"])["switchable"] == pytest.approx(0.17, abs=0.01)
    assert "trace it again" in said(ROWS["F5"])["note"]


def test_f5_alone_does_not_exclude_20_volts():
    assert -10 < moved("F5") < 0


def test_f2_contradicts_20_volts():
    # "Any 9, 12 or 20 V claim is contradicted": the protocol chip signals 5 V modes alone.
    assert moved("F2") < -10


@pytest.mark.parametrize("row", FIXED)
def test_a_fixed_output_speaks_against_20_volts(row):
    assert moved(row) < 0


@pytest.mark.parametrize("row", SWITCHED)
def test_a_switched_output_speaks_mildly_for_20_volts(row):
    assert 0 < moved(row) < 10


def test_the_fewer_sides_were_photographed_the_less_a_missing_part_says():
    both, one, none = (moved("F2", sides=sides) for sides in (2.0, 1.0, 0.0))
    assert both < one < none < 0


def test_f12_is_a_safety_defect_and_no_yes():
    found = said(ROWS["F12"])
    assert (found["row"], found["switchable"]) == ("F12", None)
    assert "safety defect" in found["note"]
    assert np.isnan(moved("F12"))


def test_f12_leaves_the_voltage_undecided():
    done = judge(unit(ROWS["F12"]), USB_C)
    assert done.judged.plausibility_voltage[0] == pytest.approx(0.5)


def test_f12_is_told_as_what_it_is():
    found = line(feedback_path, unit(ROWS["F12"]), USB_C)
    assert not found["used"] and "safety defect" in found["why_not"]


def test_a_plain_part_across_the_barrier_takes_the_yes_from_f6():
    f6 = ROWS["F6"]
    assert ratio(f6, bridged=0.0) == ratio(f6)
    found = said(f6, (BRIDGED, 1.0, 0.0))
    assert found["switchable"] is None and "safety defect" in found["note"]


def test_nothing_looked_at_is_no_line_and_three_questions():
    assert line(feedback_path, unit(NOT_LOOKED), USB_C) is None
    assert said(NOT_LOOKED) == {"row": None, "switchable": None, "note": ""}
    assert len(questions(feedback_path, unit(NOT_LOOKED), USB_C)) == 3


def test_the_pass_switch_alone_decides_nothing():
    assert np.isnan(ratio(NOT_LOOKED | {"bus_switch": 1.0}))


@pytest.mark.parametrize("claims", [[(12.0, 2.0, NAN, "barrel")], [(5.0, 2.0, NAN, "usb_a")]])
def test_one_voltage_on_its_own_plug_and_5_volts_need_no_switching(claims):
    done = judge(unit(ROWS["F4"]), claims)
    assert np.isnan(weight(done, ID)) and done.judged.plausibility[0] == pytest.approx(0.5)


def test_sides_that_were_not_recorded_count_as_one():
    one = unit(ROWS["F2"], sides=1.0)
    bare = [row for row in one if row[0] != "photographed_sides"]
    assert weight(judge(bare, USB_C), ID) == weight(judge(one, USB_C), ID)
