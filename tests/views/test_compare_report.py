"""Units side by side as a PDF."""
import io

import pikepdf
import pytest

from teardowns import jobs
from teardowns.services import ask_printout
from tests.views.printed import public_unit

pytestmark = pytest.mark.django_db


@pytest.fixture
def queued(monkeypatch):
    calls = []
    monkeypatch.setattr(ask_printout, "async_task", lambda *call: calls.append(call))
    return calls


@pytest.fixture
def pair():
    return [public_unit("01-brethuld-b5.json").pk, public_unit("02-fennoway-te10.json", "bob").pk]


@pytest.mark.parametrize("units", ["", "1", "999998,999999", "x,y", "1;2;3"])
def test_it_takes_two_public_records(client, units):
    assert client.get(f"/compare/report/?units={units}").status_code == 404


def test_it_is_made_and_handed_out(client, pair, queued, django_capture_on_commit_callbacks):
    query = f"?units={pair[0]},{pair[1]}"
    with django_capture_on_commit_callbacks(execute=True):
        assert client.post(f"/compare/report/{query}").url == f"/compare/report/{query}"
    jobs.make_printout(queued[0][1])
    assert "Download the PDF" in client.get(f"/compare/report/{query}").content.decode()
    answer = client.get(f"/compare/report/comparison.pdf{query}")
    pdf = pikepdf.open(io.BytesIO(b"".join(answer.streaming_content)))
    with pdf.open_metadata() as said:
        assert said["pdfaid:conformance"] == "A"
        assert f"units {pair[0]} (version 1), {pair[1]} (version 1)" in said["dc:title"]


def test_another_order_is_another_document(client, pair, queued):
    client.post(f"/compare/report/?units={pair[0]},{pair[1]}")
    page = client.get(f"/compare/report/?units={pair[1]},{pair[0]}").content.decode()
    assert "Make the PDF" in page


def test_it_costs_at_most_twelve_queries(client, pair, queued, django_assert_max_num_queries):
    with django_assert_max_num_queries(12):
        client.get(f"/compare/report/?units={pair[0]},{pair[1]}")
