"""Keys and passkeys, with an authenticator that Chromium plays (WebAuthn Level 2, section 11)."""
import pytest
from allauth.mfa.models import Authenticator
from playwright.sync_api import expect

from core.accounts.models import Role
from tests.cast import person
from tests.core.accounts.pages import give_app

from .entering import enter, show_password, visit

pytestmark = pytest.mark.browser


@pytest.fixture
def device(page):
    """A phone that keeps keys and knows its owner; the session by which it is told what to do."""
    session = page.context.new_cdp_session(page)
    session.send("WebAuthn.enable")
    session.key = session.send("WebAuthn.addVirtualAuthenticator", {"options": {
        "protocol": "ctap2", "transport": "internal", "hasResidentKey": True,
        "hasUserVerification": True, "isUserVerified": True,
        "automaticPresenceSimulation": True}})["authenticatorId"]
    return session


def add_key(page, live_server, name, alone):
    """Through the page, the password shown again on the way."""
    visit(page, live_server, "/account/second-factor/keys/new/")
    show_password(page, name)
    page.get_by_label("Name", exact=True).fill("phone")
    page.get_by_label("Let it sign me in by itself").set_checked(alone)
    page.get_by_role("button", name="Add the key").click()
    expect(page.get_by_role("heading", name="Recovery codes")).to_be_visible()


def leave(page):
    page.get_by_role("button", name="Sign out").click()
    expect(page.get_by_role("link", name="Sign in", exact=True)).to_be_visible()


def test_a_passkey_signs_in_by_itself_and_counts_as_second_factor(
        page, live_server, transactional_db, device):
    person("rita", Role.REVIEWER)
    enter(page, live_server, "rita")
    add_key(page, live_server, "rita", alone=True)
    leave(page)
    visit(page, live_server, "/hazards/")
    page.get_by_role("button", name="Use a passkey").click()
    expect(page).to_have_url(f"{live_server.url}/hazards/")
    assert page.complaints == []


def test_a_key_is_the_second_factor_after_the_password(
        page, live_server, transactional_db, device):
    person("alice")
    enter(page, live_server, "alice")
    add_key(page, live_server, "alice", alone=False)
    leave(page)
    enter(page, live_server, "alice")
    page.get_by_role("button", name="Use a key").click()
    expect(page.get_by_role("link", name="alice")).to_be_visible()


def test_a_reviewer_shows_the_key_where_the_role_needs_it(
        page, live_server, transactional_db, device, client):
    rita = person("rita", Role.REVIEWER)
    enter(page, live_server, "rita")
    add_key(page, live_server, "rita", alone=False)
    client.force_login(rita, second_factor=False)
    page.context.add_cookies([{"name": "session", "value": client.cookies["session"].value,
                               "url": live_server.url}])
    visit(page, live_server, "/hazards/")
    page.get_by_role("link", name="Use a key").click()
    page.get_by_role("button", name="Use a key").click()
    expect(page).to_have_url(f"{live_server.url}/hazards/")


def test_a_key_put_aside_is_told_beside_the_button(page, live_server, transactional_db, device):
    """A phone that does not recognise its owner opens nothing."""
    person("alice")
    enter(page, live_server, "alice")
    add_key(page, live_server, "alice", alone=True)
    leave(page)
    device.send("WebAuthn.setUserVerified",
                {"authenticatorId": device.key, "isUserVerified": False})
    visit(page, live_server, "/sign-in/")
    page.get_by_role("button", name="Use a passkey").click()
    expect(page.get_by_role("alert")).to_contain_text("No key was read")


def test_a_key_of_somebody_else_opens_nothing(page, live_server, transactional_db, device):
    """Alice's phone answers, but her key is gone from her account."""
    alice = person("alice")
    enter(page, live_server, "alice")
    add_key(page, live_server, "alice", alone=True)
    leave(page)
    Authenticator.objects.filter(user=alice).delete()
    visit(page, live_server, "/sign-in/")
    page.get_by_role("button", name="Use a passkey").click()
    expect(page.get_by_role("status")).to_contain_text("does not fit")
    expect(page.get_by_role("heading", name="Sign in", exact=True)).to_be_visible()


def test_a_key_is_renamed_and_removed(page, live_server, transactional_db, device):
    alice = person("alice")
    give_app(alice)
    enter(page, live_server, "alice", by_cookie=True)
    visit(page, live_server, "/account/second-factor/keys/new/")
    show_password(page, "alice")
    page.get_by_role("button", name="Add the key").click()
    page.wait_for_url(lambda url: "/keys/new/" not in url)      # the key answers in its own time
    visit(page, live_server, "/account/second-factor/keys/")
    page.get_by_role("link", name="Rename Key 1").click()
    page.get_by_label("Name", exact=True).fill("ring")
    page.get_by_role("button", name="Keep the name").click()
    page.get_by_role("link", name="Remove ring").click()
    page.get_by_role("button", name="Remove it").click()
    expect(page.get_by_text("You have none.")).to_be_visible()
    assert not Authenticator.objects.filter(user=alice, type="webauthn").exists()


def test_without_a_script_the_page_says_what_to_do(chromium, live_server, transactional_db):
    context = chromium.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(f"{live_server.url}/sign-in/")
    expect(page.get_by_text("Keys and passkeys need a script")).to_be_visible()
    context.close()
