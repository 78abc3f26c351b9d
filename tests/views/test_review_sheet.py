"""One page through every row of evidence."""
import re

import pytest

from teardowns.models import EVIDENCE, Correction, Measurement, Unit
from tests.published import published
from tests.reviews import decide, handed_in, take_on
from tests.views.reviewed import rich_unit

pytestmark = pytest.mark.django_db


@pytest.fixture
def held(alice, rita, client):
    """The rich unit, which Rita reviews; she is signed in."""
    unit = rich_unit(alice)
    take_on(rita, unit)
    client.force_login(rita)
    return unit


@pytest.fixture
def pictured(alice):
    return rich_unit(alice, pictures=True)


def address(unit, query=""):
    return f"/reviews/{unit.pk}/{query}"


def page(client, unit, query=""):
    return client.get(address(unit, query)).content.decode()


def refs(unit):
    return [row.ref for model in EVIDENCE for row in model.objects.filter(unit=unit)]


def items(client, unit, query=""):
    return {item.ref: item for section in client.get(address(unit, query)).context["sections"]
            for item, _ in section["rows"]}


def test_every_row_is_there_whatever_its_kind_or_state(client, held):
    Measurement.objects.create(unit=held, key="looked", quantity="loose_metal", state="not_found",
                               author=held.contributor)
    assert sorted(items(client, held)) == sorted(refs(held))
    assert "Looked, not found" in page(client, held)


def test_it_says_how_far_the_reviewer_is(client, held, rita):
    decide(rita, held, ref=refs(held)[-1])
    assert f"1 of {len(refs(held))} decided" in page(client, held)


def test_it_costs_at_most_twelve_queries(client, pictured, rita, django_assert_max_num_queries):
    take_on(rita, pictured)
    for number in range(60):
        Measurement.objects.create(unit=pictured, key=f"extra-{number}", quantity="mass_total",
                                   value=0.05, author=pictured.contributor)
    for ref in refs(pictured)[:20]:
        decide(rita, pictured, ref=ref)
    client.force_login(rita)
    with django_assert_max_num_queries(12):
        assert len(items(client, pictured)) > 100


def test_a_row_shows_the_part_of_the_photo_that_is_marked_for_it(client, pictured, rita):
    take_on(rita, pictured)
    client.force_login(rita)
    shown = [item.shown for item in items(client, pictured).values()]
    cut = [each.picture for each in shown if each.picture and 'class="line"' in each.picture]
    assert len(cut) > 3
    source = re.search(r'href="(/units/\d+/photos/[^"]+\.webp)"', cut[0])[1]
    assert client.get(source).status_code == 200
    assert any(each.words == "No photo and no log shows it." for each in shown)


def test_the_photo_page_that_an_item_leads_to_is_open_to_its_reviewer(client, pictured, rita):
    take_on(rita, pictured)
    client.force_login(rita)
    target = next(item.shown.address for item in items(client, pictured).values()
                  if item.shown.address)
    assert client.get(target).status_code == 200


def test_it_says_what_rests_on_a_row(client, held):
    told = [text for item in items(client, held).values() for text in item.rests]
    assert any(text.startswith("A high finding: Distance of 50 to 80 %") for text in told)
    assert any("which speaks" in text and "dB" in text for text in told)
    assert "Nothing that was computed rests on it." in told


def test_confirmed_and_all_evidence_stand_side_by_side(client, held):
    text = page(client, held)
    assert "From confirmed evidence" in text and "From all evidence" in text
    assert "6 claims are judged only once somebody confirms that they are printed" in text
    assert "finding would come in: Distance of 50 to 80 %" in text


def test_what_others_said_is_told_after_ones_own_word(client, unit, rita, rolf):
    handed_in(unit)
    for reviewer in (rita, rolf):
        take_on(reviewer, unit)
    decide(rolf, unit, "disputed", reason="Another unit is on the scale")
    client.force_login(rita)
    assert "Another unit is on the scale" not in page(client, unit)
    decide(rita, unit)
    assert "rolf disputed it. Another unit is on the scale" in page(client, unit)


def test_a_kind_or_what_is_left_can_be_listed_alone(client, held, rita):
    ref = "measurement/" + held.measurements.first().key
    decide(rita, held, ref=ref)
    assert {one.split("/")[0] for one in items(client, held, "?kind=measurement")} == {
        "measurement"}
    assert ref not in items(client, held, "?kind=measurement&show=open")
    assert len(items(client, held, "?kind=nonsense")) == len(refs(held))


def test_values_can_be_hidden_until_one_has_measured(client, unit, rita):
    handed_in(unit, {"value": 0.0514})
    take_on(rita, unit)
    client.force_login(rita)
    assert "51.4" in page(client, unit)
    assert "51.4" not in page(client, unit, "?values=hidden")


def test_a_correction_asks_for_what_it_changed_and_shows_the_rest(client, unit, rita, rolf, bob):
    handed_in(unit, {}, {})
    take_on(rolf, unit)
    for ref in ("measurement/m0", "measurement/m1"):
        decide(rolf, unit, ref=ref)
    Correction.objects.create(unit=unit, author=bob, base=published(unit), status="submitted",
                              reason="Weighed with another scale")
    unit.measurements.filter(key="m1").update(version=2, author=bob, review_state="open")
    take_on(rita, unit)
    client.force_login(rita)
    text = page(client, unit)
    assert "Weighed with another scale" in text and "0 of 1 decided" in text
    assert "1 unchanged and confirmed before" in text
    assert "Unchanged since it was confirmed" in text


def test_what_a_correction_took_out_is_named(client, unit, rita, bob):
    handed_in(unit, {}, {"quantity": "case_height"})
    Correction.objects.create(unit=unit, author=bob, base=published(unit), status="submitted",
                              reason="There is no such height")
    unit.measurements.filter(key="m1").delete()
    take_on(rita, unit)
    client.force_login(rita)
    assert client.get(address(unit)).context["removed"] == ["Case height"]
    assert "Taken out" in page(client, unit)


def test_a_row_of_ones_own_is_left_to_somebody_else(client, unit, rita):
    handed_in(unit, {}, {"author": rita})
    take_on(rita, unit)
    client.force_login(rita)
    assert "You entered this row yourself" in page(client, unit)
    assert "0 of 1 decided" in page(client, unit)


def test_a_unit_without_rows_says_so(client, unit, rita):
    Unit.objects.filter(pk=unit.pk).update(status="submitted")
    take_on(rita, unit)
    client.force_login(rita)
    assert "This record has no row of evidence." in page(client, unit)


@pytest.mark.parametrize(("who", "status"), [
    ("rolf", 404), ("alice", 403), ("bob", 403), ("mona", 403), ("ada", 403), ("", 302)])
def test_only_who_holds_the_review_opens_it(client, held, request, who, status):
    client.logout()
    if who:
        client.force_login(request.getfixturevalue(who))
    assert client.get(address(held)).status_code == status


@pytest.mark.parametrize("state", ["draft", "sent_back", "published", "withdrawn", "declined"])
def test_it_closes_with_the_work(client, held, state):
    Unit.objects.update(status=state)
    assert client.get(address(held)).status_code == 404


def test_other_methods_are_refused(client, held):
    assert client.post(address(held)).status_code == 405
