"""What people add to a record stands on paper too."""
import pytest

from teardowns.printouts.unit_record import unit_record
from teardowns.services.public_versions import public_versions
from tests.printouts.reading import words
from tests.published import published
from tests.views.test_feeds import replied

pytestmark = pytest.mark.django_db


def printed(unit):
    return words(unit_record(*public_versions([(unit.pk, None)])).blocks)


def test_a_reply_of_the_maker_stands_in_it(unit, bob, mona):
    published(unit)
    assert "No maker or seller has replied" in printed(unit)
    replied(unit, bob, mona, "We changed it.")
    assert "Reply of Veltrice Ltd" in printed(unit) and "We changed it." in printed(unit)


def test_what_somebody_typed_is_words_whatever_it_looks_like(unit):
    unit.title = '<script>alert("x")</script> #read("/etc/passwd") $x$'
    unit.save()
    published(unit)
    assert unit.title in printed(unit)


def test_a_unit_without_a_photo_says_nothing_of_photos(unit):
    published(unit)
    assert "Pictures made anew" not in printed(unit)
