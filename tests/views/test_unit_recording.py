"""One log as everybody sees it: chart, results, the row that each went into."""
import pytest

from teardowns.models import Recording
from teardowns.services.extract_results import results_of
from teardowns.services.take_result import take_result
from tests.published import published
from tests.views.log_page import held, public, text_of

pytestmark = pytest.mark.django_db


@pytest.fixture
def log(alice, unit, tmp_path):
    return held(alice, unit, tmp_path)


def test_it_shows_chart_results_and_how_it_was_taken(client, log):
    published(log.unit)
    response = client.get(public(log))
    page = text_of(response)
    assert "U (V): output voltage" in page and "230\u202fV" in page and "<svg" in page
    assert "Take as evidence" not in page and "not a safety certificate" in page
    assert " style=" not in page and " onclick=" not in page and "<style" not in page


def test_a_number_that_became_evidence_leads_to_its_row(client, alice, log):
    found = next(one for one in results_of(log) if one["name"] == "sustained_power")
    take_result(author=alice, recording=log, name="sustained_power", key="held", version=0,
                span=(found["start"], found["end"]))
    published(log.unit)
    page = text_of(client.get(public(log)))
    assert f'href="/units/{log.unit_id}/#measurement-held">Part of the evidence' in page
    assert 'id="measurement-held"' in text_of(client.get(f"/units/{log.unit_id}/"))


def test_what_was_made_for_the_demo_says_so(client, log):
    Recording.objects.update(generated=True)
    published(log.unit)
    assert "no instrument wrote it" in text_of(client.get(public(log)))


def test_only_its_contributor_is_led_to_the_bench_while_it_is_open(client, alice, mona, log):
    bench = f'href="/bench/{log.unit_id}/recordings/{log.key}/"'
    client.force_login(alice)
    assert bench in text_of(client.get(public(log)))
    published(log.unit)
    client.force_login(mona)
    page = text_of(client.get(public(log)))
    assert bench not in page and "The file as it came in</a>" in page
    client.force_login(alice)
    assert bench not in text_of(client.get(public(log)))
    client.logout()
    assert "The file as it came in</a>" not in text_of(client.get(public(log)))


def test_a_log_that_is_not_read_has_no_page(client, alice, laid_out):
    client.force_login(alice)
    assert client.get(public(laid_out)).status_code == 404
