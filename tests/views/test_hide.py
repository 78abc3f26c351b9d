"""Hide at once, and what a moderator makes of it: gone from the page, the picture and the list."""
import pytest

from teardowns.models import HiddenNow, Unit
from teardowns.services.hide_now import hide_now
from tests.published import published
from tests.views.deciding import look, send

pytestmark = pytest.mark.django_db
WHY = {"code": "personal_data", "facts": "A face is mirrored in the case."}


@pytest.fixture
def public(photo):
    published(photo.unit)
    return photo


def address(photo):
    return f"/hide/?about=photo/{photo.pk}"


@pytest.mark.parametrize("name", ["alice", "rita", "mona"])
def test_a_photo_is_gone_from_public_at_once(client, request, public, name):
    client.force_login(request.getfixturevalue(name))
    client.post(address(public), {"reason": "A face is mirrored in the case."})
    client.logout()
    assert client.get(public.get_absolute_url()).status_code == 404
    assert client.get(f"{public.get_absolute_url()}320.webp").status_code == 404
    assert Unit.objects.published().exists()


def test_its_contributor_and_moderators_still_see_it_a_reviewer_does_not(
        client, public, alice, mona, rolf):
    hide_now(by=mona, about=f"photo/{public.pk}", reason="A face.")
    for person, status in ((alice, 200), (mona, 200), (rolf, 404)):
        client.force_login(person)
        assert client.get(public.get_absolute_url()).status_code == status, person


def test_a_whole_record_goes_and_its_page_is_not_found(client, public, rita):
    client.force_login(rita)
    client.post(f"/hide/?about=unit/{public.unit_id}", {"reason": "The parcel label."})
    client.logout()
    assert client.get(f"/units/{public.unit_id}/").status_code == 404


def test_without_words_nothing_is_hidden(client, public, rita):
    client.force_login(rita)
    page = client.post(address(public), {"reason": " "}).content.decode()
    assert 'class="err"' in page and not HiddenNow.objects.exists()


@pytest.mark.parametrize(("name", "status"), [("bob", 404), ("ada", 403)])
def test_others_may_not(client, request, public, name, status):
    client.force_login(request.getfixturevalue(name))
    assert client.post(address(public), {"reason": "A face."}).status_code == status
    assert not HiddenNow.objects.exists()


@pytest.mark.parametrize("about", ["", "reply/1", "unit/77777", "photo/0"])
def test_what_cannot_be_hidden_is_not_found(client, mona, about):
    client.force_login(mona)
    assert client.get(f"/hide/?about={about}").status_code == 404


def test_a_moderator_shows_it_again_after_a_look(client, public, rita, mona):
    hidden = hide_now(by=rita, about=f"photo/{public.pk}", reason="A face.")
    client.force_login(mona)
    page = client.get(f"/moderation/hidden/{hidden.pk}/").content.decode()
    assert "A face." in page and "rita" in page and "cover/" in page
    assert "This will be sent" in look(
        client, f"/moderation/hidden/{hidden.pk}/", do="show_again", **WHY)
    send(client, f"/moderation/hidden/{hidden.pk}/", do="show_again", **WHY)
    client.logout()
    assert client.get(public.get_absolute_url()).status_code == 200


def test_or_confirms_it_and_cannot_confirm_their_own(client, public, mona, milo):
    hidden = hide_now(by=mona, about=f"photo/{public.pk}", reason="A face.")
    case = f"/moderation/hidden/{hidden.pk}/"
    client.force_login(mona)
    page = send(client, case, do="keep_hidden", **WHY).content.decode()
    assert "another moderator confirms" in page
    client.force_login(milo)
    send(client, case, do="keep_hidden", **WHY)
    assert HiddenNow.objects.get().confirmed_by == milo


def test_what_is_not_hidden_any_more_is_not_found(client, mona):
    client.force_login(mona)
    assert client.get("/moderation/hidden/7/").status_code == 404
