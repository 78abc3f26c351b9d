"""Margins at the ends of neighbouring windings."""
import numpy as np
import pytest

from teardowns.engine import rulebook
from tests.engine.rules.safety.any_inputs import random_inputs, run
from tests.engine.rules.safety.asked import asked, grade_of

RULE = next(rule for rule in rulebook.load().safety if rule.id == "safety/winding_margin")
NAN = float("nan")
WOUND = {"inner": "primary", "outer": "secondary", "insulated_wire": "none",
         "solid_thickness": 0.0, "edges_photographed": 1.0, "rated_voltage_high": 240.0}


def margins(left, right=None, **more):
    return WOUND | {"margin_left_sum": left, "margin_right_sum": left if right is None else right
                    } | more


# Test report on a charger, IEC 62368-1, 2021: 5.0 mm of creepage for reinforced insulation at
# 250 V, group III; at 285 V by table 17 between 2.5 (250 V) and 3.2 mm (320 V): 2.85, up to 2.9,
# twice: 5.8 mm. So margins of 2.5 and of 2.9 mm on each winding; U of a sum is 0.14 mm.
def test_both_margins_together_stand_beside_the_creepage():
    done = asked("winding_margin", **margins(6.0e-3))
    assert [done.low[0], done.high[0]] == pytest.approx([5.0e-3, 5.8e-3])


@pytest.mark.parametrize("subject, expected", [
    (margins(6.0e-3), "meets"),                              # 3.0 and 3.0 mm
    (margins(5.4e-3), "cannot tell"), (margins(4.8e-3), "falls short"),
    (margins(0.0), "falls short"),                           # no margin, no insulated wire
    (margins(6.0e-3, 2.0e-3), "falls short"), (margins(6.0e-3, NAN), "cannot tell"),
    (margins(2.0e-3, NAN), "falls short"), (margins(NAN), "cannot tell"),
])
def test_the_end_that_leaves_less_decides(subject, expected):
    assert grade_of("winding_margin", **subject) == expected


def test_no_margin_is_only_believed_where_a_photo_shows_the_edges():
    assert grade_of("winding_margin", **margins(0.0, edges_photographed=0.0)) == "cannot tell"
    assert grade_of("winding_margin", **margins(2e-3, edges_photographed=0.0)) == "falls short"


# A maker's guide on transformers: not needed at windings of triple-insulated wire.
@pytest.mark.parametrize("wire, expected", [
    ("documented", None), ("apparent", "cannot tell"), ("", "cannot tell"),
    ("none", "falls short")])
def test_documented_wire_needs_no_margin_and_looks_excuse_a_short_one(wire, expected):
    assert grade_of("winding_margin", **margins(1e-3, insulated_wire=wire)) == expected


def test_a_wall_or_a_shield_between_leaves_a_short_margin_open():
    assert grade_of("winding_margin", **margins(1e-3, solid_thickness=1e-3)) == "cannot tell"
    assert grade_of("winding_margin", **margins(1e-3, inner="shield")) == "cannot tell"


def test_margins_beside_the_core_are_not_asked():
    assert grade_of("winding_margin", **margins(1e-3, inner="core")) is None


def test_a_wider_margin_is_never_worse():
    """A margin of nothing that no photo shows is no reading, so those are left out."""
    inputs = random_inputs(RULE, np.random.default_rng(21), 4000)
    for name in ("margin_left_sum", "margin_right_sum"):
        wider = run(RULE, inputs | {name: inputs[name] + 1e-3})
        assert (wider.grade >= run(RULE, inputs).grade).all()


@pytest.mark.parametrize("name, factor", [
    ("rated_voltage_high", 1.2), ("working_voltage_rms", 1.5), ("working_voltage_peak", 2.0),
    ("rated_altitude", 1.5), ("overvoltage_category", 2.0)])
def test_more_voltage_or_altitude_is_never_better(name, factor):
    inputs = random_inputs(RULE, np.random.default_rng(22), 4000)
    before, after = run(RULE, inputs), run(RULE, inputs | {name: inputs[name] * factor})
    tabulated = ~np.isnan(before.low) & ~np.isnan(after.low)     # beyond a table nothing is known
    assert tabulated.sum() > 1000
    assert (after.grade <= before.grade)[tabulated].all()
