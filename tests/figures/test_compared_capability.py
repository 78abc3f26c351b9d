"""Capabilities of several units on one axis."""
from teardowns.figures.axes import log_axis
from teardowns.figures.capability import Capability
from teardowns.figures.compared_capability import Standing, compared_capability
from teardowns.figures.ladder import Claimed

from .drawing import of_class, parsed, share

AXIS = log_axis([1.0, 90.0])            # 0.9 and 97 W, so 0.5 to 100 W
SMALL = Capability(14.6, 13.1, 16.7, [(10.0, 0.01), (14.6, 1.0), (20.0, 0.01)], "× 3.1")


def standing(capability=SMALL, claimed=45.0, letter="A"):
    claim = Claimed(claimed, f"claimed {claimed:g} W") if claimed else None
    return Standing(f"<b>{letter}</b> Unit", f"{letter}: spoken", capability, claim, "14.6")


def drawn(*standings):
    return parsed(compared_capability("Caption", AXIS, [("Lower end", standings)]))


def test_units_stand_in_rows_below_their_mains_condition():
    tree = drawn(standing(), standing(letter="B"))
    assert [row.get("role") for row in tree.iter("tr")] == ["row"] * 4
    group, = of_class(tree, "group")
    assert group.find("th").get("scope") == "rowgroup"


def test_the_same_watts_stand_at_the_same_place_in_every_row():
    tree = drawn(standing(claimed=50.0), standing(claimed=50.0, letter="B"))
    first, second = (node for node in of_class(tree, "claim") if node.tag == "line")
    # ln(50 / 0.5) / ln(100 / 0.5) = 4.60517 / 5.29832
    assert share(first) == share(second) == 86.92


def test_a_unit_without_evidence_is_a_dotted_line():
    tree = drawn(standing(None))
    assert of_class(tree, "unm") and not of_class(tree, "cap")


def test_a_unit_that_claims_nothing_has_no_claim_drawn():
    assert not of_class(drawn(standing(claimed=None)), "claim")


def test_the_label_of_a_claim_stands_away_from_the_capability():
    above, = of_class(drawn(standing(claimed=30.0)), "claim-t")
    below, = of_class(drawn(standing(claimed=10.0)), "claim-t")
    assert (above.get("text-anchor"), below.get("text-anchor")) == ("start", "end")


def test_a_label_at_the_edge_stays_on_the_drawing():
    far, = of_class(drawn(standing(claimed=95.0)), "claim-t")
    near, = of_class(drawn(standing(claimed=0.6)), "claim-t")
    assert (far.get("text-anchor"), near.get("text-anchor")) == ("end", "start")
