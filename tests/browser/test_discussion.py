"""A comment, a notice and a maker's reply, walked through as four people in Chromium."""
import pytest
from django.conf import settings

from teardowns.models import Comment, Measurement, Notice, Reply
from teardowns.services.send_digests import signer
from tests.published import published

from .soundness import check, violations

pytestmark = pytest.mark.browser
WIDTHS = (1280, 360)
AWKWARD = ("Which core is it? " + "E" * 200 + "\n\n> quoted\n\n- a\n- b\n\n```\n" + "code " * 60
           + "\n```\n\n<script>document.title='owned'</script> [look](https://a.example/b)")


@pytest.fixture
def sign_in(page, live_server, client):
    """Become somebody, with a second factor where the role needs one."""
    def become(user):
        client.force_login(user)
        page.context.add_cookies([{
            "name": settings.SESSION_COOKIE_NAME, "url": live_server.url,
            "value": client.cookies[settings.SESSION_COOKIE_NAME].value}])
        return page
    return become


@pytest.fixture
def record(transactional_db, unit, milo):
    """Alice's published unit, with a mass to talk about."""
    Measurement.objects.create(
        unit=unit, key="mass", quantity="mass_total", value=0.05, uncertainty=0.001,
        uncertainty_kind="interval", author=unit.contributor, review_state="confirmed")
    published(unit, milo)
    return unit


def press(page, name):
    page.locator("main").get_by_role("button", name=name, exact=True).click()


def look(page, address):
    for width in WIDTHS:
        page.set_viewport_size({"width": width, "height": 800})
        check(page, address)
    page.set_viewport_size({"width": 1280, "height": 800})


def shown(page):
    """What is on the screen now is accessible at both widths and nothing lies sideways."""
    for width in WIDTHS:
        page.set_viewport_size({"width": width, "height": 800})
        assert violations(page) == []
        assert page.evaluate("document.documentElement.scrollWidth <= window.innerWidth")
    page.set_viewport_size({"width": 1280, "height": 800})


def test_a_comment_waits_is_shown_is_answered_and_is_taken_back(
        page, live_server, sign_in, record, bob, rita, mona):
    address = f"{live_server.url}/units/{record.pk}/discussion/?about=measurement/mass"
    look(page, address)
    sign_in(bob)
    page.goto(address)
    press(page, "Watch")
    page.goto(address)
    press(page, "Send")
    assert page.get_by_role("alert").get_by_text("Write something").is_visible()
    page.get_by_label("Your comment").fill(AWKWARD)
    press(page, "Send")
    page.get_by_text("until then its author").wait_for()
    shown(page)
    sign_in(mona)
    look(page, f"{live_server.url}/moderation/comments/")
    page.get_by_role("link", name="Moderate").click()
    shown(page)
    press(page, "Show this comment")
    sign_in(rita)
    page.goto(address)
    assert page.title() != "owned" and page.locator(".said script").count() == 0
    page.get_by_label("Your comment").fill("It is an EE16, see *photo 3*.")
    press(page, "Send")
    page.get_by_role("link", name="Change").click()
    page.get_by_label("Your comment").fill("It is an EE19, see *photo 3*.")
    shown(page)
    press(page, "Save")
    assert page.locator(".said em").last.inner_text() == "photo 3"
    page.get_by_role("button", name="Take back").click()
    page.get_by_text("Taken back by its author.").wait_for()
    look(page, address)
    assert Comment.objects.count() == 2


def test_notices_are_read_and_the_emails_ended(
        page, live_server, sign_in, record, bob, rita):
    sign_in(bob)
    page.goto(f"{live_server.url}/units/{record.pk}/discussion/")
    press(page, "Watch")
    look(page, f"{live_server.url}/watches/")
    sign_in(rita)
    page.goto(f"{live_server.url}/units/{record.pk}/discussion/")
    page.get_by_label("Your comment").fill("Where was it weighed?")
    press(page, "Send")
    sign_in(bob)
    look(page, f"{live_server.url}/notices/")
    press(page, "Mark all as read")
    page.get_by_text("0 unread").wait_for()
    assert not Notice.objects.unread().filter(person=bob).exists()
    page.get_by_label("Never").check()
    press(page, "Save")
    page.get_by_text("You get no e-mails").wait_for()
    page.context.clear_cookies()
    look(page, f"{live_server.url}/notices/no-mail/{signer.sign(bob.pk)}/")
    press(page, "End them")
    page.get_by_role("heading", name="No more e-mails").wait_for()


def test_a_makers_reply_is_checked_shown_disputes_and_is_answered(
        page, live_server, sign_in, record, bob, mona):
    sign_in(bob)
    page.goto(f"{live_server.url}/units/{record.pk}/replies/")
    page.get_by_role("link", name="Reply for the maker or seller").click()
    page.get_by_label("Your statement").fill("We changed the *fuse* in March.")
    press(page, "Send the statement")
    assert page.get_by_label("Your statement").input_value() == "We changed the *fuse* in March."
    shown(page)
    page.get_by_label("For whom do you speak?").fill("Veltrice Ltd")
    page.get_by_label("How can we check that?").fill("press@veltrice.example")
    page.get_by_label("We dispute").check()
    press(page, "Send the statement")
    shown(page)
    sign_in(mona)
    look(page, f"{live_server.url}/moderation/replies/")
    page.get_by_role("link", name="Veltrice VQ-45").click()
    shown(page)
    page.get_by_label("How it was checked").fill("They answered from their own domain.")
    press(page, "Verified: show it")
    page.get_by_role("link", name="Veltrice VQ-45").click()
    page.get_by_label("What was looked at again").fill("Weighed again: the same.")
    shown(page)
    press(page, "Keep what came of it")
    page.context.clear_cookies()
    look(page, f"{live_server.url}/units/{record.pk}/replies/")
    assert page.get_by_text("Weighed again: the same.").is_visible()
    assert Reply.objects.get().state == "verified"
