import pytest

from teardowns.services.edit_family import decide_member, propose_member
from tests.library import family as opened
from tests.published import published

pytestmark = pytest.mark.django_db
ADDRESS = "/families/"


def test_each_family_says_how_many_published_units_it_has(client, mona, bob, unit):
    family = opened(mona)
    published(unit)
    made = propose_member(proposer=bob, family_pk=family.pk, unit_pk=unit.pk, why="So.")
    assert [one.units for one in client.get(ADDRESS).context["families"]] == [0]
    decide_member(moderator=mona, member_pk=made.pk, version=1, accepted=True, reason="So.")
    assert [one.units for one in client.get(ADDRESS).context["families"]] == [1]
    type(unit).objects.update(status="withdrawn")
    assert [one.units for one in client.get(ADDRESS).context["families"]] == [0]


def test_an_empty_list_says_how_families_come_about(client):
    assert "No family is open yet" in client.get(ADDRESS).content.decode()


def test_moderators_alone_are_offered_to_open_one(client, mona, bob):
    for person, sees in ((bob, False), (mona, True)):
        client.force_login(person)
        assert ("/families/open/" in client.get(ADDRESS).content.decode()) == sees


def test_the_list_costs_few_queries(client, mona, django_assert_max_num_queries):
    opened(mona)
    client.force_login(mona)
    with django_assert_max_num_queries(5):
        client.get(ADDRESS)
