"""No page asks more than twelve queries, the session and the account among them."""
import json
from pathlib import Path

import pytest
from django.conf import settings
from django.db import transaction
from django.test import override_settings

from teardowns.drawing.files import drawn_files
from teardowns.drawing.logs.logs_of import logs_of
from teardowns.exchange.document import read_document
from teardowns.models import Status, Unit
from teardowns.services.draw_demo_logs import keep_logs
from teardowns.services.draw_demo_photos import keep_drawings
from teardowns.services.import_unit import import_unit
from tests.cast import person
from tests.folders import storages_below
from tests.published import published

pytestmark = pytest.mark.django_db
RICH = Path(settings.BASE_DIR) / "fixtures/units/20-hurdlop-turbo45.json"
PAGES = ["/", "/units/", "/units/?q=hurdlop&sort=gap", "/bench/", "/method/", "/styleguide/",
         "/units/{pk}/", "/units/{pk}/working/power/bulk_capacitor/low/",
         "/units/{pk}/claims/out-5v/", "/units/{pk}/document.json",
         "/units/{pk}/photos/component-side/", "/units/{pk}/recordings/",
         "/units/{pk}/recordings/{log}/", "/units/{pk}/recordings/{log}/window.json",
         "/units/{pk}/recordings/{log}/chart.svg"]

BENCH = ["/bench/{pk}/photos/", "/bench/{pk}/photos/component-side/"]


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    return tmp_path_factory.mktemp("rich")


@pytest.fixture(scope="module")
def rich(django_db_setup, django_db_blocker, folder):
    """A unit with pictures and logs, made once for the whole file: they take a while."""
    document = read_document(json.loads(RICH.read_text("utf-8")))
    files = override_settings(STORAGES=settings.STORAGES | storages_below(folder))
    with files, django_db_blocker.unblock(), transaction.atomic():
        unit = import_unit(document, person("alice"), Status.IN_REVIEW)
        keep_drawings(unit, drawn_files(document))
        keep_logs(unit, logs_of(document))
        published(unit)
        yield unit.pk
        transaction.set_rollback(True)


@pytest.fixture
def unit(rich, folder, settings, client):
    settings.STORAGES = settings.STORAGES | storages_below(folder)
    unit = Unit.objects.select_related("contributor").get(pk=rich)
    client.force_login(unit.contributor)
    return unit


@pytest.mark.parametrize("address", PAGES)
def test_a_signed_in_reader_costs_at_most_twelve_queries(
        client, unit, django_assert_max_num_queries, address):
    log = unit.recordings.order_by("pk").first().key
    with django_assert_max_num_queries(12):
        assert client.get(address.format(pk=unit.pk, log=log)).status_code == 200


@pytest.mark.parametrize("address", BENCH)
def test_photos_on_the_bench_cost_their_contributor_at_most_twelve(
        client, unit, django_assert_max_num_queries, address):
    type(unit).objects.update(status=Status.DRAFT, publication=None)
    with django_assert_max_num_queries(12):
        page = client.get(address.format(pk=unit.pk)).content.decode()
    assert "component-side" in page
