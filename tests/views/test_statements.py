"""A person's own list of decisions, and nobody else's."""
import pytest

from teardowns.services.state_reasons import give_reasons

pytestmark = pytest.mark.django_db


def test_it_lists_own_ones_and_no_others(client, alice, bob, mona):
    for person, facts in ((alice, "Floods."), (bob, "Attacks.")):
        give_reasons(decision="suspend", code="abuse", facts=facts, addressee=person, by=mona,
                     subject=f"user/{person.pk}")
    client.force_login(alice)
    page = client.get("/statements/").content.decode()
    assert page.count('<a href="/statements/') - page.count('href="/statements/"') == 1


def test_an_empty_list_says_so(client, alice):
    client.force_login(alice)
    assert "Nothing was decided" in client.get("/statements/").content.decode()
