from dataclasses import replace

import pytest

from teardowns.figures.capability import Capability
from teardowns.figures.ladder import Claimed, Rung, evidence_ladder, ladder_axis

from .drawing import of_class, parsed, share

BULK = Rung("limit", "Bulk capacitor", "15 µF", 14.7, 11.0, 19.7, "14.7", "11.0 to 19.7", "/w/")
HELD = Rung("passed", "Held regulation", "30 min", 13.0, 12.4, 13.7, "at least 13.0",
            "12.4 to 13.7")
FOUND = Capability(14.6, 13.1, 16.7, [(10.0, 0.01), (14.6, 1.0), (20.0, 0.01)], "× 3.1")
CLAIM = Claimed(45.0, "claimed 45 W")
CELLS = ("Capability", "14.6")


def drawn(rungs=(BULK, HELD), claim=CLAIM, found=FOUND):
    axis = ladder_axis(rungs, [claim.power] if claim else [], [found] if found else [])
    return axis, parsed(evidence_ladder("Caption", axis, rungs, claim, found, CELLS))


def test_every_row_is_a_row_of_a_table_with_explicit_roles():
    _, tree = drawn()
    rows = list(tree.iter("tr"))
    assert len(rows) == 4                       # head, two lines, capability
    assert all(row.get("role") == "row" for row in rows)
    assert tree.find("table").get("role") == "table"


def test_the_claim_runs_through_every_row_at_the_same_place():
    axis, tree = drawn()
    places = {share(line) for line in of_class(tree, "claim")}
    assert places == {round(axis(45.0), 2)}
    assert len(of_class(tree, "claim")) == 4


def test_a_limit_ends_at_a_wall_at_its_upper_end():
    axis, tree = drawn()
    wall, = of_class(tree, "lim-w")
    assert share(wall) == pytest.approx(axis(19.7), abs=0.01)


def test_the_number_links_to_its_working():
    _, tree = drawn()
    link, = tree.iter("a")
    assert (link.text, link.get("href")) == ("14.7", "/w/")


def test_a_screen_reader_hears_kind_value_and_interval():
    _, tree = drawn()
    titles = [title.text for title in tree.iter("title")]
    assert "limit: 14.7 W, 90 % interval 11.0 to 19.7 W" in titles


def test_the_lowest_rung_comes_first():
    _, tree = drawn(rungs=(BULK, HELD))         # 14.7 W, 13.0 W
    titles = [title.text for title in tree.iter("title")]
    assert [title.split(":")[0] for title in titles[:2]] == ["passed", "limit"]


def test_without_any_line_the_foot_is_dotted_and_nothing_is_invented():
    _, tree = drawn(rungs=(), found=None)
    assert of_class(tree, "unm") and not of_class(tree, "cap")


def test_without_a_claim_there_is_no_claim_line():
    _, tree = drawn(claim=None)
    assert not of_class(tree, "claim") and not of_class(tree, "claim-t")


@pytest.mark.parametrize(("power", "anchor"), [(10.5, "start"), (100.0, "middle"), (990.0, "end")])
def test_the_claims_label_stays_on_the_sheet(power, anchor):
    axis = ladder_axis([replace(BULK, low=10.8, high=900)], [power], [])
    tree = parsed(evidence_ladder("", axis, [], Claimed(power, "claimed"), None, CELLS))
    label, = of_class(tree, "claim-t")
    assert label.get("text-anchor") == anchor


def test_the_tick_under_the_claim_is_left_out():
    _, tree = drawn(claim=Claimed(50.0, "claimed 50 W"))
    assert "50" not in [node.text for node in of_class(tree, "axis-t")]


def test_names_cannot_inject_markup():
    _, tree = drawn(rungs=[replace(BULK, title="<script>x</script>")])
    assert not list(tree.iter("script"))


def test_no_style_attribute_is_written():
    _, tree = drawn()
    assert all(node.get("style") is None for node in tree.iter())
