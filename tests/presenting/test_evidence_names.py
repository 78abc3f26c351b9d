"""How a calculation sheet names the rows behind a number."""
import pytest

from teardowns.presenting.evidence_names import cited_rows

HELD = {"quantity": "sustained_power", "how": "measured"}


def names(*measurements):
    rows = [HELD | {"key": f"m{n}"} | one for n, one in enumerate(measurements)]
    document = dict.fromkeys(("claims", "components", "stack", "insulation"), ()) | {
        "ports": [{"key": "c1", "label": "USB-C1", "how": "measured"}], "measurements": rows}
    cited = cited_rows(document)
    return [cited[f"measurement/{row['key']}"].name for row in rows]


def test_a_reading_that_stands_alone_is_named_by_its_quantity():
    assert names({"value": 65.0, "mains_voltage": 230.0}) == ["Power held in regulation"]


@pytest.mark.parametrize("row, told", [
    ({"value": 65.0, "mains_voltage": 230.0, "port": "c1"},
     " (65\u202fW, 230\u202fV mains, USB-C1)"),
    ({"value": 12.5}, " (12.5\u202fW)"), ({}, ""),
])
def test_of_several_each_is_told_apart(row, told):
    assert names(row, {"value": 1.0})[0] == f"Power held in regulation{told}"
