"""What a reviewer declares once and for all."""
import pytest

from core.audit.models import Entry
from teardowns.models import Affiliation

pytestmark = pytest.mark.django_db
ADDRESS = "/reviews/ties/"


@pytest.fixture
def page(client, rita):
    client.force_login(rita)
    return lambda **typed: client.post(ADDRESS, typed)


def test_a_tie_to_an_organisation_is_declared_and_logged_without_its_words(client, page):
    assert page(organisation="Veltrice", relation="I work there").url == ADDRESS
    assert "I work there" in client.get(ADDRESS).content.decode()
    entry = Entry.objects.get()
    assert entry.action == "tie_declared" and "Veltrice" not in str(entry.detail)


def test_a_tie_to_a_person_is_declared_by_user_name(page, alice):
    page(username="alice", relation="We share a household")
    assert Affiliation.objects.get().other == alice


@pytest.mark.parametrize(("typed", "words"), [
    ({"organisation": "Veltrice"}, "Say what ties you"),
    ({"relation": "Work"}, "Name either an organisation or a person"),
    ({"relation": "Work", "organisation": "V", "username": "alice"}, "Name either"),
    ({"relation": "Kin", "username": "nobody"}, "Nobody here is called nobody"),
    ({"relation": "Me", "username": "rita"}, "This is you")])
def test_what_is_wrong_is_told_and_kept(page, alice, typed, words):
    text = page(**typed).content.decode()
    assert words in text and all(value in text for value in typed.values())
    assert Affiliation.objects.count() == 0


def test_a_tie_ends_and_stays_on_record(client, page, rita):
    tie = Affiliation.objects.create(person=rita, organisation="V", relation="Work")
    assert page(end=tie.pk).url == ADDRESS
    tie.refresh_from_db()
    assert tie.ended_at and client.get(ADDRESS).context["ties"] == []


def test_nobody_ends_the_ties_of_others(page, rolf):
    tie = Affiliation.objects.create(person=rolf, organisation="V", relation="Work")
    assert page(end=tie.pk).status_code == 404


def test_it_is_the_reviewers_page(client, alice):
    client.force_login(alice)
    assert client.get(ADDRESS).status_code == 403
