"""One unit as one row of a list."""
import pytest

from teardowns.models import Unit
from teardowns.presenting.unit_rows import unit_rows, with_newest_assessment
from tests.views.listed import assess, listed

pytestmark = pytest.mark.django_db


def only_row():
    (row,) = unit_rows(with_newest_assessment(Unit.objects.all()))
    return row


def test_the_newest_assessment_counts():
    unit = listed("A charger", claimed_power=10, verdict="supported")
    assess(unit, rulebook="2+second", claimed_power=20, verdict="implausible")
    row = only_row()
    assert row.claimed == "claimed 20\u202fW" and "implausible" in row.verdict


def test_a_unit_without_an_assessment_stays_and_claims_nothing():
    listed("A charger", assessed=False)
    row = only_row()
    assert (row.claimed, row.capability) == ("no power claim", "unknown")
    assert "not assessed yet" in row.verdict and 'class="cap"' not in row.strip


def test_the_origin_names_what_is_known():
    listed("A charger", maker="", model="CV-45", kind="desktop")
    assert only_row().origin == "CV-45 · desktop adapter"


def test_a_unit_that_was_never_published_has_no_day():
    Unit.objects.filter(pk=listed("A charger").pk).update(published_at=None)
    assert only_row().published == ""
