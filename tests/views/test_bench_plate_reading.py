import pytest

pytestmark = pytest.mark.django_db


@pytest.fixture
def url(unit):
    return f"/bench/{unit.pk}/plate-reading/"


def test_it_shows_what_each_piece_of_the_text_was_read_as(client, alice, url):
    client.force_login(alice)
    page = client.post(url, {"text": "OUTPUT: 5V 2.4A\r\nqqz"}).content.decode()
    assert "<mark>" in page and "output, 5\u202fV, 2.4\u202fA" in page
    assert "Not understood:" in page and "qqz" in page


def test_markup_in_the_text_stays_text(client, alice, url):
    client.force_login(alice)
    page = client.post(url, {"text": "<script>5V 1A"}).content.decode()
    assert "<script>" not in page


def test_no_text_is_no_error(client, alice, url):
    client.force_login(alice)
    assert "Nothing to read yet" in client.post(url).content.decode()


def test_a_text_too_long_says_so(client, alice, url):
    client.force_login(alice)
    assert "characters long" in client.post(url, {"text": "5V " * 3000}).content.decode()


def test_it_rejects_get(client, alice, url):
    client.force_login(alice)
    assert client.get(url).status_code == 405


def test_another_s_sheet_is_not_found(client, bob, url):
    client.force_login(bob)
    assert client.post(url, {"text": "5V"}).status_code == 404


def test_anonymous_is_led_to_sign_in(client, url):
    assert client.post(url, {"text": "5V"}).url.startswith("/sign-in/")
