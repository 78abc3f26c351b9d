"""What a unit's page says of other boards, beside its verdict and apart from it."""
import pytest

from teardowns.services.compare_sisters import compare_sisters
from teardowns.services.find_likenesses import find_likenesses
from tests.library import family as opened
from tests.likenesses import board, component, strangers, winding
from tests.published import published
from tests.services.test_want_sisters import join

pytestmark = pytest.mark.django_db


@pytest.fixture
def pair(alice, bob, mona):
    """One torn down and one that was hardly opened, in one family, among strangers."""
    torn = board(alice, "Torn down")
    winding(torn, "secondary", 3, 9.0)
    component(torn, "fuse", "T1A", rated_current=1.0)
    published(torn)
    closed = board(alice, "Closed", turns=None)
    strangers(alice)
    family = opened(mona)
    for unit in (torn, closed):
        join(family, unit, bob, mona)
    return torn, closed


def page(client, unit, version=""):
    return client.get(f"/units/{unit.pk}/{version}").content.decode()


def test_it_names_what_looks_alike(client, pair):
    find_likenesses()
    assert f'Looks like the board of <a href="/units/{pair[0].pk}/">' in page(client, pair[1])


def test_it_shows_what_sister_boards_showed_with_its_origin(client, pair):
    compare_sisters()
    shown = page(client, pair[1])
    assert "With what sister boards showed" in shown and "Secondary turns" in shown
    assert f"/units/{pair[0].pk}/versions/2/#stacklayer-secondary-3" in shown
    assert "neither support a claim nor reject it" in shown


def test_before_it_is_worked_out_and_after_it_became_stale_it_is_not_shown(client, pair):
    assert "With what sister boards showed" not in page(client, pair[1])
    compare_sisters()
    published(pair[0])
    assert "With what sister boards showed" not in page(client, pair[1])


def test_an_older_version_says_nothing_of_other_boards(client, pair):
    compare_sisters()
    assert 'id="sisters"' in page(client, pair[1])
    published(pair[1])
    compare_sisters()
    assert 'id="sisters"' not in page(client, pair[1], "versions/1/")


def test_with_other_boards_the_page_costs_at_most_twelve_queries(
        client, pair, django_assert_max_num_queries):
    compare_sisters()
    find_likenesses()
    with django_assert_max_num_queries(12):
        assert 'id="sisters"' in page(client, pair[1])


def test_the_family_shows_what_its_boards_show_together(client, pair):
    assert "being worked out anew" in client.get("/families/board-hb-12/").content.decode()
    compare_sisters()
    shown = client.get("/families/board-hb-12/").content.decode()
    assert "What the boards show together" in shown and "nothing to take over" in shown
    assert "No two units of the family differ" in shown
