"""No page asks more than twelve queries, the session and the account among them."""
import json
from pathlib import Path

import pytest
from django.conf import settings

from teardowns.drawing.files import drawn_files
from teardowns.drawing.logs.logs_of import logs_of
from teardowns.exchange.document import read_document
from teardowns.models import Status
from teardowns.services.assess_units import assess_units
from teardowns.services.draw_demo_logs import keep_logs
from teardowns.services.draw_demo_photos import keep_drawings
from teardowns.services.import_unit import import_unit

pytestmark = pytest.mark.django_db
RICH = Path(settings.BASE_DIR) / "fixtures/units/20-hurdlop-turbo45.json"
PAGES = ["/", "/units/", "/units/?q=hurdlop&sort=gap", "/bench/", "/method/", "/styleguide/",
         "/units/{pk}/", "/units/{pk}/working/power/bulk_capacitor/low/",
         "/units/{pk}/claims/out-5v/", "/units/{pk}/document.json",
         "/units/{pk}/photos/component-side/", "/units/{pk}/recordings/",
         "/units/{pk}/recordings/{log}/", "/units/{pk}/recordings/{log}/window.json",
         "/units/{pk}/recordings/{log}/chart.svg"]

BENCH = ["/bench/{pk}/photos/", "/bench/{pk}/photos/component-side/"]


@pytest.fixture
def unit(django_user_model, client):
    alice = django_user_model.objects.create_user("alice")
    document = json.loads(RICH.read_text("utf-8"))
    unit = import_unit(read_document(document), alice, Status.PUBLISHED)
    assess_units([unit])
    keep_drawings(unit, drawn_files(document))
    client.force_login(alice)
    return unit


@pytest.mark.parametrize("address", PAGES)
def test_a_signed_in_reader_costs_at_most_twelve_queries(
        client, unit, django_assert_max_num_queries, address):
    log = _logged(unit) if "recordings" in address else ""
    with django_assert_max_num_queries(12):
        assert client.get(address.format(pk=unit.pk, log=log)).status_code == 200


@pytest.mark.parametrize("address", BENCH)
def test_photos_on_the_bench_cost_their_contributor_at_most_twelve(
        client, unit, django_assert_max_num_queries, address):
    type(unit).objects.update(status=Status.DRAFT)
    with django_assert_max_num_queries(12):
        page = client.get(address.format(pk=unit.pk)).content.decode()
    assert "component-side" in page


def _logged(unit):
    """The key of one of its logs, made for the pages that show them alone: they take a while."""
    keep_logs(unit, logs_of(read_document(json.loads(RICH.read_text("utf-8")))))
    return unit.recordings.order_by("pk").first().key
