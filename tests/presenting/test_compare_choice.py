"""What the page that helps to choose prints."""
from types import SimpleNamespace

from teardowns.forms.chosen_units import Chosen
from teardowns.presenting.compare_choice import compare_address, offered, picked, problems_of

from .compared import compared


def listed(**changed):
    return SimpleNamespace(**{"pk": 9, "title": "Ollerby P20", "maker": "Ollerby", "model": "P20",
                              "verdict": "supported", "claimed_power": 20.0, "capability": 22.3,
                              "capability_low": 20.0, "capability_high": 26.2} | changed)


def test_an_address_keeps_order_and_versions():
    assert compare_address([Chosen(3), Chosen(8, "2")]) == "/compare/?units=3,8v2"


def test_each_chosen_unit_can_be_taken_out():
    found = picked([compared(pk=3), compared(pk=8, version="2")], [Chosen(3), Chosen(8, "2")])
    assert [one.without for one in found] == ["/compare/?units=8v2", "/compare/?units=3"]
    assert found[1].address == "/units/8/versions/2/"
    assert found[1].remark == "Veltrice VQ-45, version 2"


def test_an_offered_unit_is_added_at_the_end():
    one, = offered([listed()], [Chosen(3)])
    assert one.with_it == "/compare/?units=3,9"
    assert one.power == "claims 20\u202fW; capability 22.3\u202fW (20.0 to 26.2)"


def test_what_is_not_known_of_an_offered_unit_is_said():
    one, = offered([listed(claimed_power=None, capability=None, verdict="")], [])
    assert one.power == "no power claim; capability: cannot tell" and one.chip == ""


def test_a_withdrawn_unit_is_named_with_its_tombstone():
    problem, = problems_of([], [5], [], [])
    assert "Unit 5 was withdrawn" in problem.text and problem.href == "/units/5/"


def test_a_unit_and_a_version_that_are_not_there_have_their_own_remedy():
    unit, version = problems_of([], [], [(99, ""), (3, "7")], [])
    assert "no public unit 99" in unit.text and "address of a unit’s page" in unit.text
    assert "no public version 7" in version.text and "without “v7”" in version.text
