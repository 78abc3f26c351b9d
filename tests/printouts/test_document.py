"""What stands in a record on paper."""
import json

import pytest
from django.db import transaction

from teardowns.models import Publication
from teardowns.printouts.document import document_of
from teardowns.services.public_versions import public_versions
from tests.printouts.reading import words
from tests.views.printed import public_unit

pytestmark = pytest.mark.django_db


@pytest.fixture(scope="module")
def rich(django_db_setup, django_db_blocker):
    """One document of the richest unit, for the tests that only read it."""
    with django_db_blocker.unblock(), transaction.atomic():
        unit = public_unit()
        document, _ = document_of(public_versions([(unit.pk, None)]))
        publication = Publication.objects.select_related("standing").get(unit=unit)
        yield document, publication
        transaction.set_rollback(True)


def headings(document):
    return [block["text"] for block in document["blocks"]
            if block["b"] == "head" and block["level"] == 2]


def test_it_has_every_part_that_the_page_has_and_its_working(rich):
    assert {"Claims and evidence", "Power", "Voltages", "Checks", "Insulation and hazards",
            "The evidence itself", "Replies", "What to measure next", "Cautions",
            "Working of the numbers", "This record"} <= set(headings(rich[0]))


def test_it_says_where_it_comes_from_and_what_it_rests_on(rich, settings):
    document, publication = rich
    said = words(document["blocks"])
    assert publication.standing.evidence_digest in said
    assert f"{settings.SITE_URL}/units/{publication.unit_id}/versions/1/" in said
    assert "No terms are on record" in said


def test_working_gives_formula_inputs_and_source_of_each_line(rich):
    document, publication = rich
    used = [line for line in publication.standing.payload["lines"] if line["ends"]["low"]]
    formulas = [block for block in document["blocks"] if block["b"] == "formula"]
    assert len(formulas) >= len(used)
    assert words(document["blocks"]).count("Source: ") >= len(used)


def test_its_date_is_that_of_its_numbers_and_no_clocks(rich):
    document, publication = rich
    moment = max(publication.published_at, publication.standing.created_at)
    assert document["meta"]["date"][:5] == [moment.year, moment.month, moment.day, moment.hour,
                                            moment.minute]


def test_it_is_plain_data(rich):
    assert json.loads(json.dumps(rich[0])) == rich[0]
