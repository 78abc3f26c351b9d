import re

import pytest

from core.audit.models import Entry
from teardowns.exchange.observations import observations
from teardowns.forms.sections import SECTIONS
from teardowns.models import (
    Claim,
    Component,
    Measurement,
    Port,
    PrintedText,
    UnsavedSection,
)
from teardowns.services.export_unit import unit_document
from tests.forms.sent import as_a_browser_sends, sent

pytestmark = pytest.mark.django_db
MASS = "mass-total-0-value"


@pytest.fixture
def bench(client, alice, unit):
    """Alice at her sheet: `bench(slug)` opens a section, with fields it sends them."""
    client.force_login(alice)

    def visit(slug, changes=None, follow=False, **button):
        url = f"/bench/{unit.pk}/{slug}/"
        if changes is None and not button:
            return client.get(url)
        return client.post(url, sent(unit, slug, changes, **button), follow=follow)

    return visit


def text_of(response):
    return response.content.decode()


@pytest.mark.parametrize("section", SECTIONS, ids=lambda section: section.slug)
def test_every_section_opens_within_twelve_queries(
    bench, section, unit, alice, django_assert_max_num_queries
):
    for i in range(6):
        Component.objects.create(unit=unit, key=f"b{i}", role="bulk_capacitor", marking="10µF",
                                 author=alice)
        Port.objects.create(unit=unit, key=f"p{i}", label=f"C{i}", author=alice)
    with django_assert_max_num_queries(12):
        response = bench(section.slug)
    page = text_of(response)
    assert response.status_code == 200
    assert f'<h1 id="sheet-title">{section.title}</h1>' in page
    assert "not a safety certificate" in page
    assert " style=" not in page and " onclick=" not in page


def test_saving_leads_back_to_the_section_and_says_what_changed(bench, unit):
    response = bench("outside", {MASS: "72,3"}, follow=True)
    assert response.redirect_chain[-1][0] == f"/bench/{unit.pk}/outside/#main"
    assert "1 entry changed" in text_of(response)
    assert Measurement.objects.get().value == pytest.approx(0.0723)
    assert 'value="72.3 g"' in text_of(response)


def test_a_text_of_which_no_claim_was_made_says_so_until_one_is(bench, unit, alice):
    said = "nothing of it is a claim yet"
    assert said not in text_of(bench("printed"))
    page = text_of(bench("printed", {"texts-0-text": "Output: 5V 2A"}, follow=True))
    assert page.count(said) == 1
    Claim.objects.create(unit=unit, key="c", kind="output", text="5V 2A", author=alice)
    assert said not in text_of(bench("printed"))


def test_a_limit_is_kept_and_printed_as_a_limit_and_assessed_as_unknown(bench, client, unit):
    page = text_of(bench("barrier", {"insulation-resistance-0-value": "> 500M"}, follow=True))
    assert 'value="&gt; 500 MΩ"' in page
    row = Measurement.objects.get()
    assert (row.value, row.bound, row.bound_kind) == (None, 5e8, "above")
    assert "&gt;\u202f500\u202fMΩ" in text_of(client.get(f"/units/{unit.pk}/"))
    assert client.get(f"/units/{unit.pk}/document.json").json()["measurements"][0]["bound"] == 5e8
    seen = observations(unit_document(unit))
    assert "insulation_resistance" not in {one.code for one in seen}


def test_saving_may_lead_on_to_the_next_section(bench, unit):
    response = bench("outside", {MASS: "72"}, save_next="next")
    assert response.url == f"/bench/{unit.pk}/ports/#main"


def test_the_verdict_follows_the_save(bench):
    assert "It follows each save" in text_of(bench("outside"))
    page = text_of(bench("printed", {
        "texts-0-text": "OUTPUT 5V 9A", "claims-TOTAL": "1", "claims-0-key": "c",
        "claims-0-version": "0", "claims-0-kind": "output", "claims-0-text": "5V 9A",
        "claims-0-voltage": "5", "claims-0-current": "9",
    }, follow=True))
    assert "no evidence" in page and "Claimed: " in page and "Measure next" in page


@pytest.mark.parametrize("section", SECTIONS, ids=lambda section: section.slug)
def test_what_may_still_be_charged_stands_before_every_opening_and_powering_step(bench, section):
    page = text_of(bench(section.slug))
    assert ("assume it charged indefinitely, and measure" in page) is bool(section.cautions)


def test_the_bench_card_is_of_the_unit_at_hand(bench):
    page = text_of(bench("mains-side", {
        "bulk-capacitance-0-value": "22 µF", "bulk-discharge-resistance-0-value": "1 MΩ",
    }, follow=True)).replace("\u202f", " ")
    # By hand at 373.4 V, the plate not read: ½ C V² = 1.5 J; R C ln(V/60) = 40 s.
    assert "22 µF measured, may hold up to 1.5 J at 373 V" in page
    assert "The 1 MΩ found across it bring it down to 60 V in 40 s" in page


def test_a_wrong_entry_saves_nothing_and_loses_nothing(bench):
    page = text_of(bench("outside", {MASS: "heavy", "case-width-0-value": "50"}))
    assert "Nothing of this section is saved yet; what you typed is kept." in page
    assert "1 entry needs a change" in page
    assert f'<a href="#id_{MASS}">' in page
    assert f'aria-describedby="id_{MASS}_error"' in page
    assert 'value="heavy"' in page and 'value="50"' in page
    assert not Measurement.objects.exists()


def test_what_could_not_be_saved_is_there_after_a_reload_with_its_errors(bench):
    bench("outside", {MASS: "heavy"})
    page = text_of(bench("outside"))
    assert 'value="heavy"' in page and "there is no number in it" in page
    assert "not saved" in text_of(bench("ports"))            # the rail says so everywhere


def test_the_next_good_save_clears_what_was_kept(bench):
    bench("outside", {MASS: "heavy"})
    bench("outside", {MASS: "72"})
    assert not UnsavedSection.objects.exists()
    assert 'value="72 g"' in text_of(bench("outside"))


def test_what_is_not_saved_may_be_thrown_away(bench):
    bench("outside", {MASS: "heavy"})
    bench("outside", discard="yes")
    assert "heavy" not in text_of(bench("outside"))


def test_a_resend_is_one_entry(bench, client, unit):
    fields = sent(unit, "ports", {"ports-0-label": "USB-C"})
    for _ in range(2):
        assert client.post(f"/bench/{unit.pk}/ports/", fields).status_code == 302
    assert Port.objects.count() == 1


@pytest.mark.parametrize("section", SECTIONS, ids=lambda section: section.slug)
def test_a_section_that_nobody_touched_is_saved_as_a_browser_sends_it(client, bench, unit, section):
    address = f"/bench/{unit.pk}/{section.slug}/"
    page = client.get(address).content.decode()
    assert client.post(address, as_a_browser_sends(page)).status_code == 302
    assert not Component.objects.exists() and not Measurement.objects.exists()


def test_saving_an_untouched_section_leaves_no_history(bench):
    bench("outside", {MASS: "72"})
    assert "nothing had changed" in text_of(bench("outside", follow=True, save="here"))
    assert Measurement.history.count() == 1


def test_one_more_row_keeps_what_is_typed_and_shows_no_errors(bench):
    page = text_of(bench("ports", {"ports-0-label": "C1", "ports-0-advertised": "12"},
                         add_row="ports"))
    assert 'name="ports-1-label"' in page and 'value="C1"' in page
    assert "is not a 32-bit word" not in page
    assert not Port.objects.exists()
    assert 'name="ports-1-label"' in text_of(bench("ports"))       # and after a reload


def test_the_button_for_one_more_row_leads_to_that_row(bench):
    place = re.search(r'value="ports" formaction="#(row-ports-\d+)"', text_of(bench("ports")))[1]
    assert f'id="{place}"' not in text_of(bench("ports"))
    assert f'id="{place}"' in text_of(bench("ports", add_row="ports"))


@pytest.mark.parametrize("page", ["outside", "photos", "recordings", "submit"])
def test_by_keyboard_the_rail_is_skipped_in_one_step(client, alice, unit, page):
    client.force_login(alice)
    text = text_of(client.get(f"/bench/{unit.pk}/{page}/"))
    skip, sheet = text.index('<a class="skip" href="#sheet">'), text.index(' id="sheet"')
    assert text.index('class="rail"') < skip < text.index("<ol>", skip) < sheet


def test_a_row_of_no_table_is_not_added(bench):
    assert bench("ports", add_row="nonsense").status_code == 200


def test_a_row_that_changed_elsewhere_is_shown_beside_what_was_typed(bench, client, unit):
    bench("outside", {MASS: "70"})
    stale = sent(unit, "outside", {MASS: "90 g"})
    bench("outside", {MASS: "80"})
    page = text_of(client.post(f"/bench/{unit.pk}/outside/", stale))
    assert "changed elsewhere" in page and "Value: 80 g" in page and 'value="90 g"' in page
    assert Measurement.objects.get().value == pytest.approx(0.08)
    again = stale | {"mass-total-0-version": "2"}            # as the page now carries it
    assert client.post(f"/bench/{unit.pk}/outside/", again).status_code == 302
    assert Measurement.objects.get().value == pytest.approx(0.09)


def test_the_page_after_a_conflict_carries_the_version_it_showed(bench, client, unit):
    bench("outside", {MASS: "70"})
    stale = sent(unit, "outside", {MASS: "90 g"})
    bench("outside", {MASS: "80"})
    page = text_of(client.post(f"/bench/{unit.pk}/outside/", stale))
    assert 'name="mass-total-0-version" value="2"' in page


def test_a_row_is_removed_by_its_box(bench):
    bench("outside", {MASS: "70"})
    bench("outside", {"mass-total-0-remove": "on", MASS: "nonsense"})
    assert not Measurement.objects.exists()


def test_reading_a_text_prefills_claims_that_are_saved_only_when_asked(bench, unit):
    key = sent(unit, "printed")["texts-0-key"]
    typed = {"texts-0-text": "OUTPUT 5V 3A / 9V 2A", "texts-0-key": key}
    page = text_of(bench("printed", typed, read_text=key))
    assert 'name="claims-1-voltage" value="9 V"' in page
    assert "<mark>" in page
    assert not Claim.objects.exists()


def test_claims_point_at_the_text_that_is_saved_with_them(bench, unit):
    key = sent(unit, "printed")["texts-0-key"]
    typed = {"texts-0-text": "OUTPUT 5V 3A", "texts-0-key": key}
    bench("printed", typed, read_text=key)
    drawn = UnsavedSection.objects.get().fields
    drawn.pop("read_text")                          # another button is pressed now
    bench("printed", drawn)
    claim = Claim.objects.get()
    assert claim.printed_text == PrintedText.objects.get()
    assert claim.printed_text.text[claim.start:claim.end] == claim.text


def test_the_discharge_is_logged_once_and_remembered(bench):
    assert "Measured below 30" in text_of(bench("mains-side"))
    bench("mains-side", {"discharged": "yes"})
    assert Entry.objects.filter(action="discharge_confirmed").count() == 1
    assert 'name="discharged"' not in text_of(bench("barrier"))


def test_hidden_fields_that_make_no_sense_do_no_harm(bench):
    for changes in ({"ports-TOTAL": "-1"}, {"ports-TOTAL": "99999999"}, {"ports-TOTAL": "²"},
                    {"ports-0-key": "../x", "ports-0-label": "C1"},
                    {"ports-0-version": "x", "ports-0-label": "C1"}):
        assert bench("ports", changes).status_code in (200, 302)
    assert not Port.objects.exists()


def test_only_the_contributor_s_open_sheet_is_found(client, bob, rita, mona, unit):
    for person in (bob, rita, mona):
        client.force_login(person)
        assert client.get(f"/bench/{unit.pk}/outside/").status_code == 404
        assert client.post(f"/bench/{unit.pk}/outside/").status_code == 404


def test_a_sheet_that_was_sent_in_leads_to_where_it_stands(bench, unit):
    unit.status = "submitted"
    unit.save()
    assert bench("outside").url == f"/bench/{unit.pk}/submit/#main"


def test_what_a_second_tab_still_saves_after_handing_in_is_kept_and_not_saved(bench, unit, alice):
    unit.status = "submitted"
    unit.save()
    page = text_of(bench("outside", {MASS: "72,3"}, save="here", follow=True))
    assert "What you typed is kept: take the sheet back" in page
    assert UnsavedSection.objects.get(unit=unit, author=alice).fields[MASS] == "72,3"
    assert not unit.measurements.exists()


def test_what_the_script_keeps_of_a_closed_sheet_is_kept_without_a_word(bench, unit):
    unit.status = "submitted"
    unit.save()
    assert bench("outside", {MASS: "72,3"}, keep="yes").status_code == 204
    assert UnsavedSection.objects.get().fields[MASS] == "72,3"


def test_there_is_no_such_section(bench, unit, client):
    assert client.get(f"/bench/{unit.pk}/nonsense/").status_code == 404


def test_anonymous_is_led_to_sign_in(client, unit):
    assert client.get(f"/bench/{unit.pk}/outside/").url.startswith("/sign-in/")


def test_it_rejects_put(bench, client, unit):
    assert client.put(f"/bench/{unit.pk}/outside/").status_code == 405


def test_what_the_script_sends_to_be_kept_is_kept_as_typed_and_nothing_is_saved(
        client, alice, unit):
    client.force_login(alice)
    answer = client.post(f"/bench/{unit.pk}/outside/", {
        "mass-total-0-value": "heavy", "submission": "9f2c", "keep": "yes"})
    assert (answer.status_code, answer.content) == (204, b"")
    kept = UnsavedSection.objects.get(unit=unit, author=alice, section="outside")
    assert kept.fields == {"mass-total-0-value": "heavy", "submission": "9f2c"}
    assert not unit.measurements.exists()
    assert 'kept="9f2c"' in client.get(f"/bench/{unit.pk}/outside/").content.decode()
