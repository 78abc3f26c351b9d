"""Turns in series add up, copper in parallel adds up, and an unread layer leaves both unknown."""
import pytest

from tests.exchange.observing.seen import seen, values


def test_turns_of_a_split_winding_add_up():
    rows = [{"position": 1, "kind": "winding", "winding": "primary", "turns": 20.0},
            {"position": 2, "kind": "winding", "winding": "secondary", "turns": 6.0},
            {"position": 3, "kind": "winding", "winding": "primary", "turns": 22.0}]
    assert values("primary_turns", stack=rows) == [42.0]
    assert values("secondary_turns", stack=rows) == [6.0]
    del rows[2]["turns"]
    assert values("primary_turns", stack=rows) == []


def layers(*rows, winding="secondary"):
    return {"stack": [{"position": i, "kind": "winding", "winding": winding} | row
                      for i, row in enumerate(rows, start=1)]}


BESIDE = {"in_parallel": True}


def test_turns_of_layers_in_parallel_are_those_of_one():
    rows = layers({"turns": 6.0}, {"turns": 6.0} | BESIDE)
    assert values("secondary_turns", **rows) == [6.0]
    split = layers({"turns": 20.0}, {"turns": 22.0}, {"turns": 22.0} | BESIDE, winding="primary")
    assert values("primary_turns", **split) == [42.0]               # 20 + 22 beside 22


def test_a_parallel_layer_need_not_repeat_its_turns():
    assert values("secondary_turns", **layers({"turns": 6.0}, BESIDE)) == [6.0]
    assert values("secondary_turns", **layers({}, {"turns": 6.0} | BESIDE)) == [6.0]
    assert values("secondary_turns", **layers({}, BESIDE)) == []


def test_strands_in_parallel_add_up():
    wire = {"bare_diameter": 4e-4, "strands": 2}
    rows = layers(wire, wire | BESIDE)
    assert values("secondary_strands", **rows) == [4.0]
    assert values("secondary_wire_diameter", **rows) == [pytest.approx(4e-4)]


def test_unlike_wires_in_parallel_keep_their_copper():
    # 1 × 0.3² + 1 × 0.4² = 0.25 mm² (times π/4), as 2 strands of √0.125 = 0.35355 mm.
    rows = layers({"bare_diameter": 3e-4, "strands": 1},
                  {"bare_diameter": 4e-4, "strands": 1} | BESIDE)
    assert values("secondary_wire_diameter", **rows) == [pytest.approx(0.353553e-3, rel=1e-5)]
    assert values("secondary_strands", **rows) == [2.0]


def test_of_layers_in_series_the_one_with_the_least_copper_counts():
    rows = layers({"bare_diameter": 2e-4, "strands": 1}, {"bare_diameter": 1.6e-4, "strands": 1},
                  winding="primary")
    (one,) = seen("primary_wire_diameter", **rows)
    assert one.value == pytest.approx(1.6e-4)
    assert one.refs == ("stacklayer/r1",)
    assert one.u == pytest.approx(1e-5)             # a calliper's 0.01 mm, above 2 % of 0.16 mm


def test_strands_that_nobody_counted_are_not_one():
    rows = layers({"bare_diameter": 2e-4}, winding="primary")
    assert values("primary_wire_diameter", **rows) == [2e-4]
    assert values("primary_strands", **rows) == []


@pytest.mark.parametrize("second", [
    {"state": "not_readable"}, {"turns": 5.0, "bare_diameter": 2e-4, "review_state": "disputed"}])
def test_a_layer_that_does_not_speak_leaves_its_winding_unknown(second):
    rows = layers({"turns": 5.0, "bare_diameter": 2e-4, "strands": 1}, second)
    for code in ("secondary_turns", "secondary_wire_diameter", "secondary_strands"):
        assert values(code, **rows) == []


def test_a_diameter_read_from_a_photo_shares_its_scale():
    rows = layers({"bare_diameter": 2e-4, "photo": "top"})
    photo = [{"key": "top", "sha256": "ab" * 32}]
    assert [one.photo for one in seen("secondary_wire_diameter", photos=photo, **rows)] == ["top"]
