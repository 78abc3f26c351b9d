import pytest

from teardowns.models import Part
from teardowns.services.cite_part import PartCitation, SaveRefused, cite_part
from tests.library import POWER, contain
from tests.published import published

pytestmark = pytest.mark.django_db


def test_a_part_is_public_with_the_first_unit_that_contains_it(alice, bob, mona, unit):
    part = Part.objects.create(marking="KR905", curator=alice)
    contain(unit, part)
    assert not Part.objects.visible_to(bob).exists() and Part.objects.visible_to(alice).exists()
    published(unit, mona)
    assert Part.objects.visible_to(bob).get().history.latest().history_user == mona


def test_from_then_on_no_bench_sheet_changes_its_limits(alice, mona, unit):
    cited = PartCitation("KR905", "controller", ((POWER, 12.0),), "KR905 sheet, table 1")
    contain(unit, cite_part(cited, alice, unit))
    published(unit, mona)
    with pytest.raises(SaveRefused, match="propose another one"):
        cite_part(PartCitation("KR905", "controller", ((POWER, 9.0),), "KR905 sheet"), alice, unit)
