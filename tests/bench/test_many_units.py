"""Invented units are what the site itself would have made of them."""
import pytest
from django.urls import reverse

from teardowns.models import ListedUnit, Publication, Unit
from teardowns.services.browse import browse
from teardowns.services.index_likeness import index_likeness
from teardowns.services.index_words import differing_words
from teardowns.services.list_units import listing_differences
from teardowns.services.search import search
from tests.bench.many_units import make_units

pytestmark = pytest.mark.django_db


def test_copies_are_listed_found_and_shown_as_units_that_were_published(client):
    made = make_units(230, moulds=3)
    assert browse({}).total == len(made) == 230
    assert list(listing_differences()) == []
    assert [name for *_, names in differing_words() for name in names] == []
    assert index_likeness(made) == 0
    last = ListedUnit.objects.get(pk=made[-1])
    assert last.pk in search(last.model).units
    assert client.get(reverse("unit_detail", args=[last.pk])).status_code == 200
    six = ",".join(map(str, made[-6:]))
    assert client.get(f"{reverse('compare')}?units={six}").status_code == 200
    # One of a hundred is withdrawn besides, one of fifty was corrected.
    assert Unit.objects.filter(status="withdrawn").count() == 2
    assert Publication.objects.current().filter(number=2).count() == 5


def test_what_is_multiplied_is_listed_and_found_as_often(client):
    made = make_units(40, moulds=2, times=3)
    assert browse({}).total == 3 * len(made) == ListedUnit.objects.listed().count()
    last = ListedUnit.objects.get(pk=made[-1])
    found = search(last.model).units
    assert last.pk in found and len(found) % 3 == 0
    shown = client.get("/units/?sort=newest").content.decode()
    assert shown.count('<tr role="row"><th') == 25
    assert len(Unit.objects.values_list("uid", flat=True).distinct()) == Unit.objects.count()
