"""The terms of a record at its foot and beside its document."""
import pytest

from teardowns.licence import IN_FORCE, MEASUREMENTS, WORKS
from teardowns.models import ContributionLicence, Submission, Unit
from teardowns.presenting.licence_lines import (
    licence_header,
    licence_line,
    licence_rows,
    licences_exported,
    licences_of,
)

pytestmark = pytest.mark.django_db


@pytest.fixture
def licensed(unit):
    submission = Submission.objects.create(unit=unit, author=unit.contributor)
    ContributionLicence.objects.create(
        submission=submission, unit=unit, author=unit.contributor, measurements=MEASUREMENTS,
        works=WORKS, edition=IN_FORCE.number, text_sha256=IN_FORCE.sha256, own_rights=True,
        third_party="permitted", third_party_note="photo 3 by a friend")
    return unit



def test_the_foot_names_both_licences_and_what_is_somebody_elses(licensed):
    line = licence_line(Unit.objects.with_licence().get(pk=licensed.pk))
    assert "CC0-1.0" in line and "CC-BY-4.0" in line and "photo 3 by a friend" in line


def test_the_foot_asks_nothing_of_its_own(licensed, django_assert_num_queries):
    unit = Unit.objects.with_licence().get(pk=licensed.pk)
    with django_assert_num_queries(0):
        licence_line(unit)


def test_what_was_handed_in_before_terms_were_asked_for_says_so(unit):
    assert licence_line(Unit.objects.with_licence().get(pk=unit.pk)) == "not stated"
    assert licences_exported(unit) == []


def test_a_document_carries_each_handing_in_with_the_digest_of_the_words(licensed):
    one, = licences_exported(licensed)
    assert one["text_sha256"] == IN_FORCE.sha256 and one["works"] == WORKS
    assert one["third_party"] == "photo 3 by a friend"


def test_paper_spells_the_licences_out_with_their_addresses(licensed):
    row, = licence_rows(licences_of(licensed))
    assert "Creative Commons Attribution 4.0" in row["works"]
    assert "https://creativecommons.org/licenses/by/4.0/" in row["works"]


def test_the_header_names_the_registered_relation():
    """RFC 4946 registers `license`; RFC 8288 is the header."""
    assert licence_header().count('rel="license"') == 2
