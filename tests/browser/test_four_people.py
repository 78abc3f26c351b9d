"""Four people at once, each in a browser of their own: from signing up to a withdrawn record.

A contributor, two reviewers and a moderator; somebody who speaks for the maker looks in. Messages
are caught in memory.
"""
import re

import pytest
from django.core import mail
from playwright.sync_api import expect

from core.accounts.models import Role, User
from teardowns.models import Measurement, Publication, Unit
from tests.cast import person
from tests.handing_in import with_plate

from .conftest import watched
from .entering import enter
from .soundness import check, check_width, violations

pytestmark = [pytest.mark.browser, pytest.mark.database, pytest.mark.django_db(transaction=True)]
SECRET = "dry-oak-lantern-42"


@pytest.fixture
def open_for(chromium, live_server):
    """A browser for a person, signed in unless it is a stranger's."""
    contexts = []

    def opened(name="", width=1280):
        contexts.append(chromium.new_context(viewport={"width": width, "height": 900}))
        page = watched(contexts[-1].new_page())
        page.home = live_server.url
        if name:
            enter(page, live_server, name, by_cookie=True)
        return page
    yield opened
    for context in contexts:
        context.close()


def visit(page, path):
    page.goto(page.home + path)


def sign_up(page):
    visit(page, "/sign-up/")
    page.get_by_label("Username").fill("wim")
    page.get_by_label("E-mail address").fill("wim@cast.example")
    page.get_by_label("Password", exact=True).fill(SECRET)
    assert violations(page) == []
    page.locator("main").get_by_role("button", name="Sign up").click()
    page.wait_for_url("**/sign-up/confirm/")
    visit(page, re.search(r"/sign-up/confirm/\S+", mail.outbox[-1].body)[0])
    page.locator("main").get_by_role("button").first.click()
    visit(page, "/sign-in/")
    if page.get_by_label("Password", exact=True).count():
        page.get_by_label("Username").fill("wim")
        page.get_by_label("Password", exact=True).fill(SECRET)
        page.locator("main").get_by_role("button", name="Sign in", exact=True).click()
    return User.objects.get(username="wim")


def open_a_sheet(page):
    visit(page, "/bench/new/")
    page.get_by_label("Title").fill("Veltrice VQ-45")
    page.get_by_role("button", name="Open the sheet").click()
    page.wait_for_url("**/bench/*/**")
    return Unit.objects.get()


def hand_in(page, unit):
    visit(page, f"/bench/{unit.pk}/submit/")
    if page.locator("[name=why_no_photo]").count():
        page.locator("[name=why_no_photo]").fill("The camera broke before it was opened.")
    page.locator("[name=own_rights]").check()
    page.locator("[name=third_party][value=none]").check()
    page.get_by_role("button", name="Hand it in for review").click()
    expect(page.get_by_role("heading", name="Where it stands")).to_be_visible()


def review(page, unit):
    """Taken on from the queue without a conflict; every row that is asked is confirmed."""
    visit(page, "/reviews/")
    page.get_by_role("link", name="Veltrice VQ-45").first.click()
    if "/claim/" in page.url:
        page.get_by_label("I have none").check()
        page.locator("main").get_by_role("button").first.click()
    page.wait_for_url(f"**/reviews/{unit.pk}/*")
    page.locator(".keys").wait_for()
    told, rows = page.locator("[data-aloud]"), page.locator(".item:has(.decision)")
    for at in range(rows.count()):
        rows.nth(at).focus()
        page.keyboard.press("c")
        expect(told).to_contain_text(f"{at + 1} of ")
    assert violations(page) == []


def publish(page, unit):
    visit(page, f"/moderation/{unit.pk}/")
    page.get_by_label("Note with this version").fill("Looked at by two.")
    page.get_by_role("button", name="Publish").click()
    page.wait_for_load_state()


def test_from_signing_up_to_a_withdrawn_record(open_for, transactional_db):
    for name, role in (("rita", Role.REVIEWER), ("rolf", Role.REVIEWER),
                       ("mona", Role.MODERATOR), ("bob", Role.CONTRIBUTOR)):
        person(name, role)
    contributor, rita, rolf = open_for(), open_for("rita", 360), open_for("rolf")
    moderator, maker, reader = open_for("mona"), open_for("bob"), open_for(width=360)

    wim = sign_up(contributor)
    unit = open_a_sheet(contributor)
    with_plate(unit, wim)
    Measurement.objects.create(unit=unit, key="mass", quantity="mass_total", value=0.046,
                               author=wim)
    visit(reader, f"/units/{unit.pk}/")
    assert "Veltrice" not in reader.content()                # nobody has looked at it yet
    reader.complaints.clear()

    hand_in(contributor, unit)
    for reviewer in (rita, rolf):
        review(reviewer, unit)
    publish(moderator, unit)
    check(reader, f"{reader.home}/units/{unit.pk}/")
    expect(reader.get_by_role("heading", name="Veltrice VQ-45", level=1)).to_be_visible()
    visit(contributor, "/notices/")
    expect(contributor.locator("main")).to_contain_text("Published")

    correct_the_mass(contributor, unit)
    visit(reader, f"/units/{unit.pk}/")
    assert "46.0\u202fg" in reader.content() or "46\u202fg" in reader.content()
    assert "48\u202fg" not in reader.content()               # only a version moves the page
    review(rita, unit)
    publish(moderator, unit)
    assert Publication.objects.count() == 2
    check(reader, f"{reader.home}/units/{unit.pk}/versions/2/against/1/")
    expect(reader.locator("main")).to_contain_text("48")

    reply(maker, moderator, unit)
    check(reader, f"{reader.home}/units/{unit.pk}/")
    expect(reader.locator("#replies")).to_contain_text("We changed the fuse in March.")

    withdraw(contributor, unit)
    visit(reader, f"/units/{unit.pk}/")
    expect(reader.get_by_role("heading", name="This record was withdrawn")).to_be_visible()
    assert violations(reader) == []
    reader.complaints.clear()                                # the browser notes every 410
    check_width(reader, reader.url)


def correct_the_mass(page, unit):
    visit(page, f"/units/{unit.pk}/correct/")
    page.get_by_label("What is wrong").fill("The scale was not set to zero: weighed again.")
    page.get_by_role("button", name="Open the bench").click()
    page.wait_for_url(f"**/bench/{unit.pk}/**")
    # What the bench sheet does to a row when its value is typed anew, see test_bench_sheet.
    Measurement.objects.filter(unit=unit).update(value=0.048, version=2, review_state="open")
    hand_in(page, unit)


def reply(maker, moderator, unit):
    visit(maker, f"/units/{unit.pk}/replies/new/")
    maker.get_by_label("Your statement").fill("We changed the fuse in March.")
    maker.get_by_label("For whom do you speak?").fill("Veltrice Ltd")
    maker.get_by_label("How can we check that?").fill("press@veltrice.example")
    maker.get_by_role("button", name="Send the statement").click()
    maker.wait_for_load_state()
    visit(moderator, "/moderation/replies/")
    moderator.locator("main").get_by_role("link", name="Veltrice VQ-45").click()
    moderator.get_by_label("How it was checked").fill("They answered from their own domain.")
    moderator.get_by_role("button", name="Verified: show it").click()
    moderator.wait_for_load_state()


def withdraw(page, unit):
    visit(page, f"/units/{unit.pk}/withdraw/")
    page.get_by_label("Reason").select_option("not_this_unit")
    page.get_by_label("What readers should know").fill("Two specimens were mixed up.")
    page.get_by_role("button", name="Withdraw it").click()
    page.wait_for_load_state()
