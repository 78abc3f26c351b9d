import pytest

from teardowns.licence import IN_FORCE

pytestmark = pytest.mark.django_db


def test_anyone_reads_the_terms_with_their_hash(client):
    page = client.get("/licence/").content.decode()
    assert IN_FORCE.statement in page and IN_FORCE.sha256 in page
    assert "CC0-1.0" in page and "CC-BY-4.0" in page


def test_it_rejects_post(client):
    assert client.post("/licence/").status_code == 405
