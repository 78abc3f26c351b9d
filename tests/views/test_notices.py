"""What one was told: read, unread, by e-mail or not."""
import pytest
from django.test import Client
from django.utils import timezone

from teardowns.models import DigestSetting, Notice, Unit
from teardowns.services.notify import notify
from teardowns.services.send_digests import signer
from tests.published import published

pytestmark = pytest.mark.django_db


@pytest.fixture
def told(unit, bob, client):
    published(unit)
    notify([bob], "published", unit=unit, event="one")
    notify([bob], "comment", unit=unit, words="by rita", address="/x/", event="two")
    client.force_login(bob)
    return bob


def html(client):
    return client.get("/notices/").content.decode()


def test_the_newest_stands_first_with_its_link(client, told, unit):
    page = html(client)
    assert page.index("A comment: Veltrice VQ-45") < page.index("Published: Veltrice VQ-45")
    assert 'href="/x/"' in page and f'href="/units/{unit.pk}/"' in page and "2 unread" in page


def test_reading_the_page_marks_nothing_and_a_button_does(client, told):
    html(client)
    assert Notice.objects.unread().count() == 2
    client.post("/notices/", {"notice": Notice.objects.first().pk})
    assert Notice.objects.unread().count() == 1
    client.post("/notices/", {"up_to": Notice.objects.first().pk})
    assert "0 unread" in html(client) and "Mark all as read" not in html(client)


def test_nobody_sees_or_marks_anothers(client, told, rita):
    client.force_login(rita)
    assert "Veltrice" not in html(client)
    client.post("/notices/", {"notice": Notice.objects.first().pk})
    assert Notice.objects.unread().count() == 2


def test_of_what_is_out_of_sight_neither_title_nor_link_is_shown(client, told):
    Unit.objects.update(quarantined_at=timezone.now())
    page = html(client)
    assert "Published" in page and "Veltrice" not in page and 'href="/x/"' not in page


@pytest.mark.parametrize("typed", [{}, {"notice": "x"}, {"up_to": "-1"}, {"notice": "9" * 40}])
def test_nonsense_is_not_found(client, told, typed):
    assert client.post("/notices/", typed).status_code == 404


def test_the_head_of_every_page_says_how_many_are_unread(
        client, told, unit, django_capture_on_commit_callbacks):
    with django_capture_on_commit_callbacks(execute=True):
        notify([told], "version", unit=unit, event="three")
    assert "Notices (3" in client.get("/method/").content.decode()
    client.post("/notices/", {"up_to": Notice.objects.first().pk})
    assert "Notices (" not in client.get("/method/").content.decode()


def test_it_asks_at_most_twelve_queries(client, told, unit, django_assert_max_num_queries):
    for n in range(30):
        notify([told], "version", unit=unit, event=f"publication/{n}")
    with django_assert_max_num_queries(12):
        html(client)


def test_one_chooses_how_often_an_email_comes(client, told):
    client.post("/notices/by-mail/", {"every": "never"})
    assert DigestSetting.objects.get().every == "never" and 'value="never" id' in html(client)
    client.post("/notices/by-mail/", {"every": "hourly"})
    assert DigestSetting.objects.get().every == "never"


def test_the_emails_end_without_signing_in_and_without_the_page(told):
    # RFC 8058, 3.2: a POST with this body, no cookies, no token of the site's.
    stranger = Client(enforce_csrf_checks=True)
    address = f"/notices/no-mail/{signer.sign(told.pk)}/"
    answer = stranger.post(address, {"List-Unsubscribe": "One-Click"})
    assert answer.status_code == 200 and DigestSetting.objects.get().every == "never"


def test_looking_at_the_address_ends_nothing(client, told):
    # RFC 8058, 3.1: fetching it must not unsubscribe, for programs look at links.
    answer = Client().get(f"/notices/no-mail/{signer.sign(told.pk)}/")
    assert "End them" in answer.content.decode() and not DigestSetting.objects.exists()


@pytest.mark.parametrize("token", ["1", "1:x", "x:y:z"])
def test_a_forged_address_is_not_found(told, token):
    assert Client().post(f"/notices/no-mail/{token}/").status_code == 404
