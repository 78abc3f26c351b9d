import pytest

from teardowns.services.edit_family import propose_member
from tests.library import family as opened
from tests.library import listed, new_limit
from tests.published import published

pytestmark = pytest.mark.django_db
ADDRESS = "/moderation/library/"


def test_moderators_see_what_waits_the_oldest_first(
        client, alice, mona, unit, django_assert_max_num_queries):
    part = listed(mona)
    for page in ("1", "2"):
        new_limit(alice, part, page=page)
    published(unit)
    propose_member(proposer=mona, family_pk=opened(mona).pk, unit_pk=unit.pk, why="So.")
    client.force_login(mona)
    with django_assert_max_num_queries(8):
        shown = client.get(ADDRESS).context
    assert ["page 1" in one["line"].told for one in shown["parts"]] == [True, False]
    assert [one["is_own"] for one in shown["members"]] == [True]


def test_nobody_else_does(client, alice, rita, ada):
    assert client.get(ADDRESS).status_code == 302
    for person in (alice, rita, ada):
        client.force_login(person)
        assert client.get(ADDRESS).status_code == 403


def test_an_empty_queue_says_so(client, mona):
    client.force_login(mona)
    assert "No proposal to the part library waits." in client.get(ADDRESS).content.decode()
