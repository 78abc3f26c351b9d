"""Every page of an account in a real browser."""
import pytest
from allauth.mfa.recovery_codes.internal.auth import RecoveryCodes
from playwright.sync_api import expect

from core.accounts.models import Role
from core.accounts.services.api_tokens import issue_token
from tests.cast import person
from tests.core.accounts.pages import give_app

from .entering import enter, show_password, visit
from .soundness import check, check_width, violations

pytestmark = pytest.mark.browser
ENTRANCE = ["/sign-in/", "/sign-up/", "/sign-up/confirm/", "/sign-up/confirm/made:up:key/",
            "/password/", "/password/sent/", "/password/changed/", "/password/new/1/made-up/",
            "/account/closed/"]
ACCOUNT = ["/account/", "/account/address/", "/account/password/", "/account/sessions/",
           "/account/tokens/", "/account/export/", "/account/delete/", "/account/confirm/",
           "/account/second-factor/", "/account/second-factor/confirm/",
           "/account/second-factor/app/remove/", "/account/second-factor/codes/",
           "/account/second-factor/codes/new/", "/account/second-factor/keys/",
           "/account/second-factor/keys/new/", "/account/second-factor/keys/confirm/"]
SIZES = pytest.mark.parametrize(("width", "scheme"), [(1280, "light"), (320, "dark")])


def as_seen(page, width, scheme):
    page.set_viewport_size({"width": width, "height": 800})
    page.emulate_media(color_scheme=scheme)


@SIZES
def test_the_entrance_is_sound(page, live_server, transactional_db, width, scheme):
    as_seen(page, width, scheme)
    for path in ENTRANCE:
        check(page, live_server.url + path)


@pytest.fixture
def rita(page, live_server, transactional_db):
    """A reviewer with an app, a key, recovery codes and a token, who showed her password."""
    rita = person("rita", Role.REVIEWER)
    issue_token(owner=rita, name="a script of mine", scopes=["read", "contribute"], days=30)
    give_app(rita)
    RecoveryCodes.activate(rita)
    enter(page, live_server, "rita", by_cookie=True)
    visit(page, live_server, "/account/confirm/")
    show_password(page, "rita")
    return rita


@SIZES
def test_the_account_is_sound(page, live_server, rita, width, scheme):
    as_seen(page, width, scheme)
    for path in ACCOUNT:
        if path.endswith("keys/confirm/"):
            continue        # there without a key, it leads to another way
        check(page, live_server.url + path)


@SIZES
def test_the_way_to_a_second_factor_is_sound(page, live_server, transactional_db, width, scheme):
    as_seen(page, width, scheme)
    person("mona", Role.MODERATOR)
    enter(page, live_server, "mona")
    check(page, live_server.url + "/second-factor/")
    page.get_by_role("link", name="Set up an authenticator app").click()
    show_password(page, "mona")
    check(page, page.url)
    expect(page.get_by_role("img", name="Square code")).to_be_visible()


def test_wrong_entries_are_sound(page, live_server, transactional_db):
    visit(page, live_server, "/sign-up/")
    page.get_by_label("Username").fill("two words")
    page.get_by_label("Password").fill("short")
    page.get_by_role("button", name="Sign up").click()
    assert violations(page) == []
    check_width(page, page.url)


def test_the_second_step_of_signing_in_is_sound(page, live_server, transactional_db):
    give_app(person("alice"))
    enter(page, live_server, "alice")
    check(page, page.url)
    assert "/sign-in/second-factor/" in page.url
