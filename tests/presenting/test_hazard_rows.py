"""Rows of the list of flagged hazards."""
from types import SimpleNamespace

import pytest

from teardowns.presenting.hazard_rows import hazard_rows

SAFETY = {"findings": [{"title": "Loose metal", "level": "high"}], "results": [],
          "without_scenario": []}


def row(reach=None, certainty=None, rulebook="3+now", risk=3, safety=SAFETY):
    unit = SimpleNamespace(pk=3, title="A cube", risk=risk, listing_reach=reach, price=None,
                           currency="", channel="unknown", certainty=certainty, assessment=5,
                           get_status_display=lambda: "published")
    stored = SimpleNamespace(payload={"safety": safety}, rulebook=rulebook)
    found, = hazard_rows([unit], {5: stored}, "3+now")
    return found


def test_a_row_names_level_findings_and_where_they_stand():
    found = row()
    assert found["level"] == "high" and found["findings"] == ["Loose metal (high)"]
    assert found["address"].endswith("/3/#findings")


@pytest.mark.parametrize("reach, certainty, said", [
    (None, None, ("not known", "seen, no number")),
    (12, 0.5, ("its listing shows 12 sales", "0.500")),
    (12, 0.99999, ("its listing shows 12 sales", "above 0.999"))])
def test_what_is_not_known_is_said(reach, certainty, said):
    found = row(reach, certainty)
    assert (found["reach"], found["certainty"]) == said


def test_what_has_no_level_is_named_and_no_level_is_made_up():
    found = row(risk=0, safety={
        "findings": [], "results": [{"title": "Scorch marks"}, {"title": "Coil"}],
        "without_scenario": [0], "flags": [1]})
    assert found["level"] == "no level given" and found["remark"] == ""
    assert found["certainty"] == "not computed"
    assert found["findings"] == ["Scorch marks (no scenario yet)",
                                 "Coil (flag: the figure is from memory)"]


def test_beside_the_level_stands_how_it_is_known_and_whether_it_is_of_the_rulebook_in_force():
    assert "from memory" in row()["remark"] and "another" not in row()["remark"]
    assert "another rulebook" in row(rulebook="3+old")["remark"]
