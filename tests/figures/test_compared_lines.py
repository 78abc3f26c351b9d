"""Lines of evidence of several units, a lane a unit."""
from teardowns.figures.axes import log_axis
from teardowns.figures.compared_lines import Lane, Line, compared_lines

from .drawing import of_class, parsed

AXIS = log_axis([1.0, 90.0])
KNOWN = Lane("A", 45.0, "14.7", 14.7, 11.0, 19.7, "11.0 to 19.7", "/units/1/working/x/low/")
UNKNOWN = Lane("B", None, "not readable")


def drawn(*lanes, kind="limit"):
    return parsed(compared_lines("Caption", AXIS, [Line(kind, "Bulk <capacitor>", lanes)],
                                 len(lanes)))


def test_a_row_has_a_lane_of_equal_height_for_each_unit():
    picture = drawn(KNOWN, UNKNOWN).find(".//tbody//td/svg")
    lanes = [(node.get("y"), node.get("height")) for node in picture.findall("svg")
             if not node.get("viewBox")]                    # which the grid has
    assert lanes == [("0.00%", "50.00%"), ("50.00%", "50.00%")]


def test_each_lane_bears_the_letter_of_its_unit():
    assert [node.text for node in of_class(drawn(KNOWN, UNKNOWN), "lane-letter")] == ["A", "B"]


def test_a_number_leads_to_its_working_and_keeps_its_interval():
    first, second = drawn(KNOWN, UNKNOWN).iter("li")
    assert first.find("a").get("href") == "/units/1/working/x/low/"
    assert first.find("small").text == "11.0 to 19.7"
    assert second.find("a") is None and "not readable" in "".join(second.itertext())


def test_a_unit_without_a_value_is_dotted_and_said_to_who_cannot_see():
    tree = drawn(KNOWN, UNKNOWN)
    assert len(of_class(tree, "unm")) == 1
    spoken = tree.find(".//tbody//td/svg/title").text
    assert spoken == "limit: A 14.7 W, 90 % interval 11.0 to 19.7 W; B not readable"


def test_only_a_unit_that_claims_has_a_claim_in_its_lane():
    assert len(of_class(drawn(KNOWN, UNKNOWN), "claim")) == 1


def test_every_kind_of_evidence_has_its_mark():
    for kind, mark in (("limit", "lim-b"), ("practice", "pra-b"), ("passed", "tst-t"),
                       ("failed", "tst-t")):
        assert of_class(drawn(KNOWN, kind=kind), mark), kind
