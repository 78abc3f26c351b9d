"""A moderator changes a step; what was typed wrong stays on the page."""
import pytest

from teardowns.models import ScenarioSet

pytestmark = pytest.mark.django_db
ADDRESS = "/method/scenarios/loose_metal/"
TYPED = {"p-moves": "1/5", "p-touched": "1/2", "p-earth": "1/10", "p-fatal": "1/10",
         "reason": "Seen to move."}


@pytest.fixture
def signed_in(client, mona):
    client.force_login(mona)
    return client


def test_a_change_is_kept_as_a_set_that_is_not_in_force(signed_in):
    answer = signed_in.post(ADDRESS, TYPED)
    assert answer.url == "/method/scenarios/?set=1"
    assert not ScenarioSet.objects.get().is_active


def test_it_goes_on_from_the_set_that_is_named(signed_in):
    signed_in.post(ADDRESS, TYPED)
    page = signed_in.get(f"{ADDRESS}?set=1").content.decode()
    assert 'value="1/5"' in page and "Seen to move." in page and "going on from risk1-" in page
    assert 'value="1/50"' in signed_in.get(ADDRESS).content.decode()


def test_a_wrong_number_is_named_and_all_that_was_typed_is_kept(signed_in):
    page = signed_in.post(ADDRESS, TYPED | {"p-moves": "often"}).content.decode()
    assert "is no probability" in page and 'value="often"' in page and "Seen to move." in page
    assert 'aria-invalid="true"' in page and not ScenarioSet.objects.exists()


def test_an_unknown_scenario_and_an_unknown_set_are_not_found(signed_in):
    assert signed_in.get("/method/scenarios/nothing/").status_code == 404
    assert signed_in.get(f"{ADDRESS}?set=3").status_code == 404


def test_a_reviewer_may_not(client, rita):
    client.force_login(rita)
    assert client.post(ADDRESS, TYPED).status_code == 403 and not ScenarioSet.objects.exists()
