"""The page about the API, printed from its description."""
import pytest
from django.utils.html import escape

from teardowns.api.openapi import DOCUMENT, openapi_document

pytestmark = pytest.mark.django_db


@pytest.fixture
def page(client):
    return client.get("/api/").content.decode()


def test_every_operation_stands_on_it(page):
    operations = [operation for methods in openapi_document()["paths"].values()
                  for operation in methods.values()]
    for operation in operations:
        assert f'id="{operation["operationId"].replace("_", "-")}"' in page
        assert escape(operation["summary"]) in page


def test_every_field_of_every_schema_is_explained(page):
    for name, schema in openapi_document()["components"]["schemas"].items():
        if schema.get("properties") and not name.startswith(DOCUMENT):
            assert f'id="schema-{name}"' in page
            assert all(each.get("description") or name == "ValidationError"
                       for each in schema["properties"].values()), name


def test_it_names_how_often_one_may_ask(client, settings):
    settings.API_READS = 4321
    assert b"4321 reads a minute" in client.get("/api/").content


def test_it_is_a_page_like_any_other(client, page, django_assert_max_num_queries):
    assert "style=" not in page and "<script>" not in page and len(page) < 170_000
    with django_assert_max_num_queries(12):
        client.get("/api/")
    assert client.post("/api/").status_code == 405
