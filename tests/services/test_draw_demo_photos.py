"""Drawings of the demo: said to be drawings, marked, scaled, and made once."""
import json
from pathlib import Path

import pytest
from django.conf import settings
from django.core.files.storage import storages

from teardowns.drawing.encoding import WIDTHS
from teardowns.drawing.files import drawn_files
from teardowns.exchange.document import read_document
from teardowns.models import Photo
from teardowns.presenting.evidence_called import evidence_called
from teardowns.services.draw_demo_photos import _waiting, draw_demo_photos, keep_drawings
from teardowns.services.import_unit import import_unit
from teardowns.services.photo_files import original_name

pytestmark = pytest.mark.django_db
POOR = Path(settings.BASE_DIR) / "fixtures/units/31-wobbegast-w33.json"
RICH = Path(settings.BASE_DIR) / "fixtures/units/20-hurdlop-turbo45.json"


@pytest.fixture
def drawn(alice):
    document = json.loads(RICH.read_text("utf-8"))
    unit = import_unit(read_document(document), alice, "published")
    assert [found for found, _ in _waiting()] == [unit]
    keep_drawings(unit, drawn_files(document))
    return unit


def test_each_is_said_to_be_a_drawing_and_has_words(drawn):
    photos = Photo.objects.filter(unit=drawn)
    assert photos.count() >= 5 and all(photo.drawn and photo.alt for photo in photos)


def test_its_files_are_there(drawn):
    for photo in drawn.photos.all():
        assert storages["originals"].exists(original_name(photo.sha256))
        assert {each.width for each in photo.derivatives.all()} == set(WIDTHS)
        assert all(storages["pictures"].exists(row.path) for row in photo.derivatives.all())


def test_every_mark_leads_to_a_row_of_evidence(drawn):
    names = evidence_called(drawn)
    shown = [mark.shows for photo in drawn.photos.all() for mark in photo.annotations.all()]
    assert shown and not [ref for ref in shown if ref and ref not in names]


def test_a_unit_that_has_pictures_is_not_drawn_again(drawn):
    assert _waiting() == []


def test_other_processes_draw_while_this_one_writes(alice):
    unit = import_unit(read_document(json.loads(POOR.read_text("utf-8"))), alice, "published")
    assert list(draw_demo_photos()) == [(1, 1)]
    assert unit.photos.exists() and list(draw_demo_photos()) == []
