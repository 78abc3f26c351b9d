"""Moderators at work in a real browser: every page sound on desk and phone, one case walked."""
import re
from datetime import timedelta

import pytest
from django.test import Client
from django.utils import timezone
from playwright.sync_api import expect

from core.accounts.models import Role
from teardowns.models import Report, ReviewRemark, SavedReply, Statement, Status, Unit
from teardowns.services.appeal import open_appeal
from teardowns.services.grant_role import propose_role
from teardowns.services.hide_now import hide_now
from teardowns.services.quarantine_unit import quarantine_unit
from teardowns.services.receive_report import receive_report
from teardowns.services.resolve_report import resolve_report
from tests.cast import person
from tests.published import published

from .soundness import check, violations

pytestmark = pytest.mark.browser
LONG = "Forty-watt-multi-port-travel-adapter-with-a-name-that-does-not-end " * 2


@pytest.fixture
def people(transactional_db):
    roles = {"alice": Role.CONTRIBUTOR, "bob": Role.CONTRIBUTOR, "rita": Role.REVIEWER,
             "mona": Role.MODERATOR, "milo": Role.MODERATOR, "ada": Role.ADMINISTRATOR}
    return {name: person(name, role) for name, role in roles.items()}


@pytest.fixture
def cases(people):
    """One of everything that waits."""
    alice, bob, mona, milo = (people[name] for name in ("alice", "bob", "mona", "milo"))
    public, waiting, old, clear = (Unit.objects.create(contributor=alice, title=title) for title in
                                   ("Veltrice VQ-45", LONG, "Ombrine O-20", "Hurdlop H-9"))
    for unit in (public, old, clear):
        published(unit, milo)
    Unit.objects.filter(pk=waiting.pk).update(
        status=Status.SUBMITTED, submitted_at=timezone.now() - timedelta(hours=80))
    waiting.measurements.create(key="mass", quantity="mass_total", value=0.05, author=alice)
    report = receive_report(reporter=bob, about=f"unit/{public.pk}", code="personal_data",
                            text="A label in photo 2 can be read.")
    other = receive_report(reporter=bob, about=f"unit/{old.pk}", code="spam", text="An advert.")
    dismissed = resolve_report(moderator=milo, report_pk=other.pk, upheld=False,
                               code="not_supported", facts="There is no advert.")
    statement = quarantine_unit(moderator=milo, unit_pk=old.pk, code="not_this_unit",
                                facts="Photo 2 shows another board.")
    appeal = open_appeal(author=alice, uid=statement.uid, text="It is the same board.")
    hidden = hide_now(by=people["rita"], about=f"unit/{clear.pk}", reason="A face in photo 1.")
    propose_role(by=milo, person_pk=alice.pk, role="reviewer", reason="Twelve sound records.")
    SavedReply.objects.create(title="Open the transformer", code="incomplete", author=mona,
                              text="Please open the transformer and describe its layers.")
    return {"public": public, "waiting": waiting, "report": report, "statement": statement,
            "appeal": appeal, "hidden": hidden, "dismissed": dismissed}


def sign_in(page, live_server, someone):
    """The browser's session becomes one that has passed a second factor."""
    client = Client()
    client.force_login(someone)
    cookie = client.cookies["session"]
    page.context.add_cookies([{"name": "session", "value": cookie.value, "url": live_server.url}])


def moderators_pages(cases, people):
    waiting, public = cases["waiting"].pk, cases["public"].pk
    return [
        "/moderation/", "/moderation/reports/", f"/moderation/reports/{cases['report'].pk}/",
        "/moderation/appeals/", f"/moderation/appeals/{cases['appeal'].pk}/",
        f"/moderation/hidden/{cases['hidden'].pk}/", "/moderation/saved-replies/",
        "/moderation/people/", f"/moderation/people/{people['alice'].pk}/",
        "/moderation/approvals/", f"/moderation/{waiting}/", f"/moderation/{public}/",
        f"/moderation/{waiting}/decide/send_back/", f"/moderation/{public}/merge/",
        f"/hide/?about=unit/{public}", f"/report/?about=unit/{public}",
    ]


@pytest.mark.parametrize("width", [1280, 360])
def test_every_page_is_sound_on_a_desk_and_on_a_phone(page, live_server, cases, people, width):
    page.set_viewport_size({"width": width, "height": 900})
    for address in (f"/report/?about=unit/{cases['public'].pk}", "/log/numbers/"):
        check(page, live_server.url + address)
    sign_in(page, live_server, people["mona"])
    for address in moderators_pages(cases, people):
        check(page, live_server.url + address)
    sign_in(page, live_server, people["alice"])
    for address in ("/statements/", f"/statements/{cases['statement'].uid}/"):
        check(page, live_server.url + address)
    check(page, f"{live_server.url}/report/receipts/{cases['report'].uid}/")


def test_a_record_is_sent_back_by_keys_with_a_saved_reply_and_a_look_first(
        page, live_server, cases, people):
    sign_in(page, live_server, people["mona"])
    page.goto(f"{live_server.url}/moderation/{cases['waiting'].pk}/")
    page.get_by_role("link", name="Send back with remarks").focus()
    page.keyboard.press("Enter")
    page.get_by_label("Saved reply").select_option(label="Open the transformer")
    page.get_by_role("button", name="Insert").focus()
    page.keyboard.press("Enter")
    expect(page.get_by_label("Facts")).to_have_value(re.compile("describe its layers"))
    page.get_by_label("Item of remark 1").select_option(index=1)
    page.get_by_label("What to change, remark 1").fill("Weigh it without its cable.")
    page.get_by_role("button", name="Look at the statement").focus()
    page.keyboard.press("Enter")
    preview = page.locator(".preview")
    assert "describe its layers" in preview.inner_text() and not ReviewRemark.objects.exists()
    assert violations(page) == []
    page.get_by_role("button", name="Decide and send").focus()
    page.keyboard.press("Enter")
    page.get_by_text("Done. The statement of reasons is kept and sent.").wait_for()
    assert ReviewRemark.objects.get().ref == "measurement/mass"
    assert Unit.objects.get(pk=cases["waiting"].pk).status == Status.SENT_BACK


def test_what_is_wrong_is_said_beside_its_field(page, live_server, cases, people):
    sign_in(page, live_server, people["mona"])
    page.goto(f"{live_server.url}/moderation/reports/{cases['report'].pk}/")
    page.get_by_role("button", name="Look at the statement").click()
    assert page.locator(".err").count() == 3 and violations(page) == []
    assert page.complaints == []


def test_a_report_of_a_stranger_is_followed_to_its_decision(page, live_server, cases, people):
    page.goto(f"{live_server.url}/report/?about=unit/{cases['public'].pk}")
    page.get_by_label("A reading is wrong").check()
    page.get_by_label("Where, and what you see").fill("The mass is not what the scale shows.")
    question = page.locator("label[for=answer]").inner_text()
    metals = {"copper", "iron", "silver", "tin", "zinc", "gold", "nickel", "lead"}
    words = question.split(": ")[1].rstrip("?").split(", ")
    page.locator("#answer").fill(str(len(metals & set(words))))
    page.get_by_role("button", name="Send the report").click()
    page.get_by_role("heading", name="Your report").wait_for()
    receipt = page.url
    sign_in(page, live_server, people["mona"])
    page.goto(f"{live_server.url}/moderation/reports/{Report.objects.latest('pk').pk}/")
    page.get_by_role("radio", name="Nothing breaks a rule").check()
    page.get_by_label("Reason").select_option("not_supported")
    page.get_by_label("Facts").fill("The scale shows 50 g in photo 3.")
    page.get_by_role("button", name="Look at the statement").click()
    page.get_by_role("button", name="Decide and send").click()
    page.get_by_text("Done. The statement").wait_for()
    page.context.clear_cookies()
    page.goto(receipt)
    assert "The scale shows 50 g in photo 3." in page.locator("main").inner_text()
    assert Statement.objects.filter(decision="report_dismissed").count() == 2


def test_two_people_change_a_role(page, live_server, cases, people):
    sign_in(page, live_server, people["ada"])
    page.goto(f"{live_server.url}/moderation/approvals/")
    page.get_by_role("button", name="Approve").click()
    page.get_by_text("Approved and done.").wait_for()
    people["alice"].refresh_from_db()
    assert people["alice"].role == Role.REVIEWER
