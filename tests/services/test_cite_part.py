import pytest

from teardowns.models import Component, Part, Unit
from teardowns.services.cite_part import PartCitation, SaveRefused, cite_part

pytestmark = pytest.mark.django_db
POWER = "controller_power_wide"
SHEET = "PZ6318 sheet, rev. 2, table 1"


def cited(watts):
    return PartCitation("PZ6318", "primary controller", ((POWER, watts),), SHEET)


def test_a_new_part_is_made_with_its_cited_limit(alice, unit):
    part = cite_part(cited(12.0), alice, unit)
    limit = part.limits.get()
    assert (part.curator, limit.quantity, limit.value) == (alice, POWER, 12.0)
    assert limit.citation == SHEET


def test_one_s_own_part_may_be_corrected_while_nobody_else_uses_it(alice, unit):
    cite_part(cited(12.0), alice, unit)
    assert cite_part(cited(13.0), alice, unit).limits.get().value == 13.0


def test_another_value_for_a_part_that_others_use_is_refused(alice, bob, unit):
    part = cite_part(cited(12.0), alice, unit)
    other = Unit.objects.create(contributor=bob, title="Another")
    Component.objects.create(unit=other, key="c", role="primary_controller", part=part, author=bob)
    with pytest.raises(SaveRefused, match="other units rely on them"):
        cite_part(cited(5.0), alice, unit)
    assert part.limits.get().value == 12.0


def test_a_stranger_links_a_part_but_cannot_change_its_limits(alice, bob, unit):
    part = cite_part(cited(12.0), alice, unit)
    assert cite_part(PartCitation("PZ6318", ""), bob, unit) == part
    assert cite_part(cited(12.0), bob, unit) == part
    with pytest.raises(SaveRefused):
        cite_part(cited(5.0), bob, unit)
    assert Part.objects.count() == 1
