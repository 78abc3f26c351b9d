"""One unit as one row of a list."""
import pytest

from teardowns.models import Publication
from teardowns.presenting.unit_rows import published_rows, unit_rows
from tests.views.listed import assess, listed

pytestmark = pytest.mark.django_db


def only_row():
    (row,) = unit_rows(published_rows())
    return row


def test_what_the_rulebook_in_force_says_counts():
    unit = listed("A charger", claimed_power=10, verdict="supported")
    Publication.objects.update(standing=assess(
        unit, rulebook="2+second", claimed_power=20, verdict="implausible"))
    row = only_row()
    assert row.claimed == "claimed 20\u202fW" and "implausible" in row.verdict


def test_a_unit_without_a_claim_stays_and_claims_nothing():
    listed("A charger", verdict="")
    row = only_row()
    assert (row.claimed, row.capability) == ("no power claim", "unknown")
    assert "no claim to judge" in row.verdict and 'class="cap"' not in row.strip


def test_the_origin_names_what_is_known():
    listed("A charger", maker="", model="CV-45", kind="desktop")
    assert only_row().origin == "CV-45 · desktop adapter"
