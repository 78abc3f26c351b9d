"""Watch a search from the list; the page that lists, renames and drops them."""
import pytest
from django.urls import reverse

from teardowns.models import SavedSearch
from tests.views.listed import listed

pytestmark = pytest.mark.django_db
SAVE = "/searches/save/?q=corven&verdict=doubtful&after=1_2&sort=gap"
KEY = "5f0c7d1e-1111-4222-8333-444455556666"


@pytest.fixture
def signed_in(client, bob):
    client.force_login(bob)
    return client


def shown(client):
    return client.get(reverse("saved_searches")).content.decode()


def test_it_leads_to_sign_in(client):
    for answer in (client.get("/searches/"), client.post(SAVE), client.post("/searches/drop/")):
        assert answer.status_code == 302 and answer.url.startswith("/sign-in/")


@pytest.mark.parametrize("address", ["/searches/save/", "/searches/drop/"])
def test_it_rejects_get(signed_in, address):
    assert signed_in.get(address).status_code == 405


def test_a_search_of_the_list_is_kept_and_leads_back(signed_in):
    answer = signed_in.post(SAVE)
    assert answer.url == "/units/?q=corven&verdict=doubtful&sort=gap"
    search = SavedSearch.objects.get()
    assert (search.text, search.choices) == ("corven", {"verdict": ["doubtful"]})
    assert search.name == "corven · doubtful"
    back = signed_in.get(answer.url).content.decode()
    assert "You get a notice when it finds another unit" in back


def test_the_same_form_counts_once_and_the_same_search_is_watched_already(signed_in):
    for _ in range(2):
        signed_in.post(SAVE, {"once": KEY})
    signed_in.post(SAVE)
    assert SavedSearch.objects.count() == 1
    assert "You watch it already" in signed_in.get("/units/").content.decode()


def test_what_is_wrong_in_the_address_is_not_kept(signed_in):
    signed_in.post("/searches/save/?verdict=excellent&kind=desktop")
    assert SavedSearch.objects.get().choices == {"kind": ["desktop"]}


def test_a_search_for_everything_is_refused_in_words(signed_in):
    signed_in.post("/searches/save/?verdict=excellent")
    assert not SavedSearch.objects.exists()
    assert "This would watch every unit" in signed_in.get("/units/").content.decode()


def test_the_page_leads_to_what_each_finds(signed_in):
    listed("A charger")
    assert "None yet" in shown(signed_in)
    signed_in.post(SAVE)
    page = shown(signed_in)
    assert 'href="/units/?q=corven&amp;verdict=doubtful"' in page and "1 saved" in page


def test_it_is_renamed_and_dropped(signed_in):
    signed_in.post(SAVE)
    key = SavedSearch.objects.get().pk
    signed_in.post("/searches/", {"search": key, "name": "Corven’s"})
    assert "Corven’s</a>" in shown(signed_in)
    signed_in.post("/searches/drop/", {"search": key})
    assert not SavedSearch.objects.exists()


def test_an_empty_name_is_refused_where_it_was_typed_and_nothing_changes(signed_in):
    signed_in.post(SAVE)
    key = SavedSearch.objects.get().pk
    page = signed_in.post("/searches/", {"search": key, "name": " "}).content.decode()
    assert "A search needs a name" in page and f'aria-describedby="name-{key}-error"' in page
    assert SavedSearch.objects.get().name == "corven · doubtful"


@pytest.mark.parametrize("key", ["", "x", "0", "9" * 30, "²"])
def test_what_is_not_there_is_said_to_be_gone(signed_in, key):
    for address in ("/searches/", "/searches/drop/"):
        signed_in.post(address, {"search": key, "name": "a"})
        assert "not there any more" in shown(signed_in)


def test_nobody_sees_or_drops_anothers(signed_in, rita, client):
    signed_in.post(SAVE)
    shown(signed_in)                             # and with it the message that names it
    client.force_login(rita)
    assert "corven" not in shown(client)
    client.post("/searches/drop/", {"search": SavedSearch.objects.get().pk})
    assert SavedSearch.objects.exists()
