"""Versions in a real browser: a correction from the record to the bench and back, two versions side
by side, a record withdrawn and made public again; sound on a desk and on a phone."""
import pytest

from teardowns.models import StandingChange, Unit
from teardowns.services.drop_correction import drop_correction
from teardowns.services.open_correction import open_correction
from teardowns.services.reassess_publications import reassess_slice
from tests.cast import person
from tests.corrections import GAP, WHY, public_unit
from tests.services.test_reassess_publications import another_rulebook
from tests.views.versions import two_versions

from .entering import enter
from .soundness import check, check_width, violations

pytestmark = [pytest.mark.browser, pytest.mark.database]
SIZES = {1280: 900, 360: 780}


@pytest.fixture
def people(transactional_db):
    return {name: person(name, role) for name, role in (
        ("alice", "contributor"), ("bob", "contributor"), ("mona", "moderator"),
        ("milo", "moderator"))}


@pytest.fixture
def unit(people):
    return two_versions(people["alice"], people["bob"], people["mona"], gaps=[GAP])


def sound_at_both_sizes(page, address):
    for width, height in SIZES.items():
        page.set_viewport_size({"width": width, "height": height})
        check(page, address)


def test_versions_and_their_difference_are_sound_to_read(page, unit, live_server, monkeypatch):
    another_rulebook(monkeypatch, scenarios=())
    reassess_slice()
    assert StandingChange.objects.exists()
    for end in (f"/units/{unit.pk}/versions/", f"/units/{unit.pk}/versions/2/against/1/",
                f"/units/{unit.pk}/versions/1/", f"/units/{unit.pk}/", "/method/changes/"):
        sound_at_both_sizes(page, live_server.url + end)


def test_any_two_versions_are_chosen_and_compared_without_a_script(chromium, unit, live_server):
    context = chromium.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(f"{live_server.url}/units/{unit.pk}/versions/")
    page.get_by_label("Was").select_option("1")
    page.get_by_label("Is now").select_option("2")
    page.get_by_role("button", name="Compare").click()
    assert page.url.endswith("/versions/2/against/1/")
    assert page.get_by_role("cell", name="Value").count() > 0
    context.close()


def test_a_correction_goes_from_the_record_to_the_bench_and_stays_readable(
        page, people, live_server):
    unit = public_unit(people["alice"])
    address = f"{live_server.url}/units/{unit.pk}"
    enter(page, live_server, "bob", by_cookie=True)
    page.goto(f"{address}/versions/")
    page.get_by_role("link", name="Propose a correction").click()
    page.get_by_role("button", name="Open the bench").click()
    assert page.get_by_label("What is wrong").get_attribute("aria-invalid") == "true"
    assert violations(page) == []
    page.get_by_label("What is wrong").fill(WHY)
    page.get_by_role("button", name="Open the bench").click()
    assert f"/bench/{unit.pk}/" in page.url
    correction = unit.corrections.get()
    sound_at_both_sizes(page, f"{address}/corrections/{correction.pk}/")
    assert page.get_by_text(WHY).is_visible()
    sound_at_both_sizes(page, f"{address}/versions/")


def test_what_was_dropped_can_be_taken_up_again_by_keys(page, people, live_server):
    unit = public_unit(people["alice"])
    open_correction(author=people["bob"], unit_pk=unit.pk, reason=WHY)
    drop_correction(author=people["bob"], unit_pk=unit.pk)
    enter(page, live_server, "bob", by_cookie=True)
    sound_at_both_sizes(page, f"{live_server.url}/units/{unit.pk}/correct/")
    page.get_by_label("What is wrong").fill(WHY)
    page.keyboard.press("Tab")
    page.keyboard.press("ArrowDown")
    page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    page.wait_for_url("**/bench/**")
    assert unit.corrections.filter(closed_at=None).count() == 1


def test_a_record_is_withdrawn_and_another_moderator_makes_it_public_again(
        page, unit, live_server, chromium):
    address = f"{live_server.url}/units/{unit.pk}/"
    enter(page, live_server, "mona", by_cookie=True)
    sound_at_both_sizes(page, f"{address}withdraw/")
    page.get_by_label("Reason").select_option("not_this_unit")
    page.get_by_label("What readers should know").fill("Photo 3 shows another specimen.")
    page.get_by_role("button", name="Withdraw it").click()
    page.wait_for_url(address)
    assert page.get_by_role("heading", name="This record was withdrawn").is_visible()
    assert violations(page) == []
    page.complaints.clear()                    # the browser notes every 410 in its console
    page.set_viewport_size({"width": 360, "height": 780})
    check_width(page, address)
    assert unit.title not in page.content().replace(f"“{unit.title}” is withdrawn", "")
    make_public_again(chromium, live_server, address)
    assert Unit.objects.get(pk=unit.pk).is_public


def make_public_again(chromium, live_server, address):
    context = chromium.new_context(viewport={"width": 360, "height": 780})
    page = context.new_page()
    enter(page, live_server, "milo", by_cookie=True)
    page.goto(address)
    page.get_by_role("link", name="Make it public again").click()
    assert violations(page) == []
    page.get_by_label("Reason").select_option("looked_at_again")
    page.get_by_label("Facts").fill("It is this specimen after all.")
    page.get_by_role("button", name="Make it public").click()
    page.wait_for_url(address)
    context.close()
