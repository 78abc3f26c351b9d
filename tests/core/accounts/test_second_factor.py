"""A second factor: set up, shown, taken away, and what a trusted role may do without."""
from datetime import timedelta

import pytest
from allauth.mfa.models import Authenticator
from django.core.cache import cache
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from core.accounts.models import Role, User

from .pages import CODE, confirm_password, give_app, is_signed_in, last_mail, set_up_app, sign_in

pytestmark = pytest.mark.django_db


@pytest.fixture
def set_up(transactional_db):
    return set_up_app


def test_setting_one_up_asks_for_the_password_first(client, alice):
    sign_in(client, "alice")
    assert client.get(reverse("mfa_activate_totp")).url.startswith(
        reverse("account_reauthenticate"))


def test_an_app_is_set_up_with_recovery_codes(client, alice, set_up):
    sign_in(client, "alice")
    assert set_up(client, "alice").url == reverse("mfa_view_recovery_codes")
    shown = client.get(reverse("mfa_view_recovery_codes")).content.decode()
    assert shown.count("<li><code>") == 10
    assert "authenticator app was set up" in last_mail(alice.email).body


def test_the_square_code_names_the_account_and_not_the_address(client, alice):
    sign_in(client, "alice")
    confirm_password(client, "alice")
    shown = client.get(reverse("mfa_activate_totp"))
    assert "otpauth://totp/alice?" in shown.context["totp_url"]
    assert 'class="square-code"' in shown.content.decode() and "data:" not in shown.content.decode()


def test_its_secret_is_not_kept_in_the_clear(client, alice, set_up):
    sign_in(client, "alice")
    set_up(client, "alice")
    kept = Authenticator.objects.get(user=alice, type="totp").data["secret"]
    assert len(kept) > 100 and kept.startswith("gAAAA")     # Fernet's version byte, 0x80


def test_a_recovery_code_stands_in_once(client, alice, set_up):
    sign_in(client, "alice")
    set_up(client, "alice")
    code = Authenticator.objects.get(user=alice, type="recovery_codes").wrap().get_unused_codes()[0]
    for expected in (302, 200):
        other = Client()
        sign_in(other, "alice")
        assert other.post(reverse("mfa_authenticate"), {"code": code}).status_code == expected


def test_without_one_a_reviewer_is_led_to_set_one_up(client, rita):
    sign_in(client, "rita")
    answer = client.get(reverse("hazard_list"))
    assert answer.url == reverse("second_factor") + "?next=%2Fhazards%2F"
    assert "Set up an authenticator app" in client.get(answer.url).content.decode()


def test_setting_one_up_opens_the_role_and_leads_on(client, rita, set_up):
    sign_in(client, "rita")
    client.get(client.get(reverse("hazard_list")).url)
    set_up(client, "rita")
    assert client.get(reverse("second_factor")).url == reverse("hazard_list")
    assert client.get(reverse("hazard_list")).status_code == 200


def test_whoever_has_one_shows_it_and_is_led_on(client, rita):
    client.force_login(rita, second_factor=False)
    give_app(rita)
    page = client.get(client.get(reverse("hazard_list")).url).content.decode()
    assert "Type a code" in page
    back = reverse("mfa_reauthenticate") + "?next=" + reverse("second_factor")
    assert client.post(back, {"code": CODE}).url == reverse("second_factor")
    assert client.get(reverse("second_factor")).url == reverse("hazard_list")
    assert client.get(reverse("hazard_list")).status_code == 200


def test_the_name_of_the_session_is_new_once_it_is_trusted(client, rita):
    sign_in(client, "rita")
    give_app(rita)
    before = client.session.session_key
    client.post(reverse("mfa_reauthenticate"), {"code": CODE})
    assert client.session.session_key != before


def test_a_password_shown_again_is_no_second_factor(client, rita):
    sign_in(client, "rita")
    confirm_password(client, "rita")
    assert client.get(reverse("hazard_list")).status_code == 302


def test_it_never_leads_to_another_site(client, rita):
    client.force_login(rita, second_factor=False)
    client.get(reverse("second_factor"), {"next": "https://example.org/"})
    client.force_login(rita)
    assert client.get(reverse("second_factor")).url == reverse("account")


def test_a_contributor_is_not_asked(client, alice):
    client.force_login(alice, second_factor=False)
    assert client.get(reverse("second_factor")).url == reverse("account")


def test_removing_the_last_one_takes_the_role_back_and_ends_other_sessions(client, rita, set_up):
    sign_in(client, "rita")
    set_up(client, "rita")
    elsewhere = Client()
    sign_in(elsewhere, "rita")
    codes = Authenticator.objects.get(user=rita, type="recovery_codes").wrap()
    elsewhere.post(reverse("mfa_authenticate"), {"code": codes.get_unused_codes()[0]})
    assert elsewhere.get(reverse("hazard_list")).status_code == 200
    client.post(reverse("mfa_deactivate_totp"))
    assert not Authenticator.objects.filter(user=rita).exists()
    assert client.get(reverse("hazard_list")).url.startswith(reverse("second_factor"))
    assert elsewhere.get(reverse("account")).url.startswith(reverse("sign_in"))


@pytest.mark.parametrize(("role", "acting"), [
    (Role.CONTRIBUTOR, Role.CONTRIBUTOR), (Role.REVIEWER, Role.CONTRIBUTOR),
    (Role.MODERATOR, Role.CONTRIBUTOR), (Role.ADMINISTRATOR, ""),
])
def test_without_one_the_trusted_contribute_and_an_administrator_reads(role, acting):
    user = User(role=role)
    assert user.acting_role == role
    user.acts_in_role = False
    assert user.acting_role == acting


def test_roles_are_no_ladder():
    moderator = User(role=Role.MODERATOR)
    assert moderator.has_role(Role.MODERATOR, Role.REVIEWER)
    assert not moderator.has_role(Role.REVIEWER) and not moderator.has_role(Role.CONTRIBUTOR)


def test_a_code_is_refused_where_the_clock_lies_before_its_last_use(client, rita):
    give_app(rita)
    Authenticator.objects.update(last_used_at=timezone.now() + timedelta(hours=1))
    sign_in(client, "rita")
    answer = client.post(reverse("mfa_authenticate"), {"code": CODE})
    assert answer.status_code == 200 and not is_signed_in(client)
    Authenticator.objects.update(last_used_at=timezone.now() - timedelta(hours=1))
    cache.clear()
    client.post(reverse("mfa_authenticate"), {"code": CODE})
    assert is_signed_in(client)
