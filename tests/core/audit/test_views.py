"""The log: its public part for everybody, all of it for who moderates or administers."""
import pytest
from django.db import transaction

from core.audit.record import record

pytestmark = pytest.mark.django_db


def recorded(actor, action, **about):
    with transaction.atomic():
        return record(actor, action, **about)


def shown(client, query=""):
    response = client.get(f"/log/{query}")
    assert response.status_code == 200
    return response.content.decode()


def test_everybody_reads_public_entries_with_their_reason_but_no_names(client, mona, alice):
    recorded(mona, "scenarios_in_force", reason="Better figures", set="set 2")
    recorded(alice, "section_saved", unit=7, section="ports")
    page = shown(client)
    assert "Set of scenarios put in force" in page and "Better figures" in page
    assert "moderator" in page and "mona" not in page
    assert "Section of a bench sheet saved" not in page and "set 2" not in page


def test_a_moderator_reads_all_with_names_and_details(client, mona, alice):
    recorded(alice, "section_saved", unit=7, section="ports")
    client.force_login(mona)
    page = shown(client)
    assert "Section of a bench sheet saved" in page and "alice, contributor" in page
    assert "section: ports" in page and 'href="/units/7/"' in page


def test_a_contributor_reads_the_public_part(client, alice):
    recorded(alice, "section_saved", unit=7)
    client.force_login(alice)
    assert "Section of a bench sheet saved" not in shown(client)


def test_it_is_narrowed_by_unit_and_action(client, mona):
    for unit in (7, 8):
        recorded(mona, "photo_covered", unit=unit)
        recorded(mona, "photo_received", unit=unit)
    client.force_login(mona)
    page = shown(client, "?unit=7&action=photo_covered")
    assert page.count('id="entry-') == 1 and 'id="entry-1"' in page


def test_pages_follow_each_other_without_a_gap(client, mona):
    for _ in range(60):
        recorded(mona, "reference_set_activated")
    first = shown(client)
    assert 'id="entry-60"' in first and 'id="entry-11"' in first and 'id="entry-10"' not in first
    assert 'href="?before=11"' in first
    second = shown(client, "?before=11")
    assert 'id="entry-10"' in second and 'id="entry-11"' not in second
    assert "Earlier entries" not in second


@pytest.mark.parametrize(("query", "message"), [
    ("?unit=seven", "Write the number of a unit"),
    ("?unit=0", "Units are numbered from 1"),
    ("?unit=99999999999999999999", "There is no such unit"),
    ("?action=section_saved", "The log knows no such action"),
    ("?before=x", "The address names no entry"),
])
def test_what_it_cannot_be_narrowed_by_is_said(client, query, message):
    page = shown(client, query)
    assert message in page and 'id="entry-' not in page


def test_an_empty_log_says_so_and_a_reason_is_only_text(client, mona):
    assert "Nothing has been decided yet" in shown(client)
    recorded(mona, "scenarios_kept", reason="<script>")
    assert "&lt;script&gt;" in shown(client)


def test_it_asks_little_and_takes_no_post(client, mona, django_assert_max_num_queries):
    for _ in range(3):
        recorded(mona, "photo_covered", unit=7)
    client.force_login(mona)
    with django_assert_max_num_queries(6):
        shown(client)
    assert client.post("/log/").status_code == 405
