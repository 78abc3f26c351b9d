"""Which language a page is in: the reader's choice, else the browser's; programs read English."""
from html import unescape
from urllib.parse import quote

import pytest
from django.urls import reverse

pytestmark = pytest.mark.django_db


def language_of(response):
    return response.content.decode().partition('<html lang="')[2].partition('"')[0]


@pytest.mark.parametrize(("asks", "gets"), [
    ("de", "de"), ("de-AT,de;q=0.9,en;q=0.5", "de"), ("en-GB", "en"), ("fr", "en"),
    ("fr,de;q=0.5", "de"), ("*", "en"), ("not a language", "en"),
])
def test_the_browser_is_asked(client, asks, gets):
    response = client.get("/licence/", HTTP_ACCEPT_LANGUAGE=asks)
    assert language_of(response) == response["Content-Language"] == gets


def test_who_asks_for_nothing_reads_what_the_english_read(client):
    plain = client.get("/licence/").content.decode()
    asked = client.get("/licence/", HTTP_ACCEPT_LANGUAGE="en").content.decode()
    nonce = "nonce="
    assert [line for line in plain.splitlines() if nonce not in line] == [
        line for line in asked.splitlines() if nonce not in line]
    assert '<html lang="en">' in plain


def test_a_cache_keeps_languages_apart(client):
    response = client.get("/licence/")
    assert {"Accept-Language", "Cookie"} <= {
        name.strip() for name in response.get("Vary", "").split(",")}


def choose(client, language, came_from="/licence/"):
    return client.post(reverse("language"), {"language": language, "from": came_from})


def test_a_choice_counts_more_than_the_browser(client):
    answer = choose(client, "de", "/licence/?from=here")
    assert answer.status_code == 302 and answer["Location"] == "/licence/?from=here"
    assert language_of(client.get("/licence/", HTTP_ACCEPT_LANGUAGE="en")) == "de"
    choose(client, "en")
    assert language_of(client.get("/licence/", HTTP_ACCEPT_LANGUAGE="de")) == "en"


def test_the_cookie_is_no_script_s_and_no_other_site_s(client):
    cookie = choose(client, "de").cookies["language"]
    assert cookie["httponly"] and cookie["samesite"] == "Lax" and cookie["max-age"] > 300 * 86400


def test_a_choice_is_kept_with_the_account(client, alice):
    client.force_login(alice)
    choose(client, "de")
    alice.refresh_from_db()
    assert alice.language == "de"


@pytest.mark.parametrize("elsewhere", [
    "https://elsewhere.example/", "//elsewhere.example/", "/no/such/page/", "javascript:alert(1)",
    "/\\elsewhere.example", "",
])
def test_it_leads_back_to_own_pages_only(client, elsewhere):
    assert choose(client, "de", elsewhere)["Location"] == "/"


def test_an_unknown_language_is_refused_and_says_so(client):
    response = choose(client, "tlh")
    assert response.status_code == 200 and 'class="err"' in response.content.decode()
    assert "language" not in response.cookies


def test_the_page_offers_both_and_remembers_where_one_came_from(client):
    page = client.get(reverse("language") + "?from=/licence/").content.decode()
    assert 'value="de"' in page and 'value="en"' in page and 'value="/licence/"' in page


def language_link(client, address):
    page = client.get(address).content.decode()
    return unescape(page.partition(f'<a href="{reverse("language")}')[2].partition('"')[0])


@pytest.mark.parametrize("address", [
    "/licence/?a=1&b=x%26y+z", "/units/?q=%C3%B6ko&connector=usb_c&connector=usb_a", "/compare/",
])
def test_a_choice_leads_back_to_the_same_search(client, address):
    link = reverse("language") + language_link(client, address)
    came_from = unescape(client.get(link).content.decode().partition('name="from" value="')[2]
                         .partition('"')[0])
    assert choose(client, "de", came_from)["Location"] == address


def test_a_page_kept_for_one_search_is_not_shown_for_another(client):
    for address in ("/units/?q=one", "/units/?q=two") * 2:
        assert language_link(client, address) == "?from=" + quote(address)


def test_the_page_of_languages_leads_back_past_itself(client):
    link = language_link(client, reverse("language") + "?from=/licence/%3Fa=1")
    assert link == "?from=" + quote("/licence/?a=1")


@pytest.mark.parametrize("address", ["/api/v1/units/0/", "/feeds/newest.atom"])
def test_programs_read_english_wherever_they_run(client, address):
    german = client.get(address, HTTP_ACCEPT_LANGUAGE="de")
    english = client.get(address, HTTP_ACCEPT_LANGUAGE="en")
    assert german.content == english.content and german.status_code == english.status_code
