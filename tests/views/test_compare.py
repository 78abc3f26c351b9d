"""Units side by side, and the page that helps to choose them."""
import html
import re

import pytest

from teardowns.models import Unit
from teardowns.services.withdraw_unit import withdraw_unit
from tests.published import published
from tests.views.log_page import held, text_of
from tests.views.opened import opened

pytestmark = pytest.mark.django_db
SECTIONS = ["difference", "claims", "power", "mass", "inside", "parts", "windings", "insulation",
            "findings", "photos", "curves", "cautions"]


@pytest.fixture
def pair(alice):
    return opened(alice), opened(alice)


def asked(client, *units, **more):
    response = client.get("/compare/", {"units": ",".join(str(getattr(unit, "pk", unit))
                                                          for unit in units)} | more)
    assert response.status_code == 200
    return text_of(response)


def test_two_units_stand_side_by_side(client, pair):
    page = asked(client, *pair)
    assert "<h1>Two units compared</h1>" in page
    assert re.findall(r'<section class="rec[^"]*" id="([^"]+)"', page) == SECTIONS
    assert page.count('role="columnheader" scope="col"><b class="letter">A</b>') == 5


def test_it_needs_no_inline_style_or_script(client, pair):
    page = asked(client, *pair)
    assert " style=" not in page and "<style" not in page and not re.search(r"\son\w+=", page)


def test_it_rejects_post(client, pair):
    assert client.post("/compare/").status_code == 405


def test_a_number_leads_to_its_working_in_the_version_shown(client, pair):
    unit = pair[0]
    page = asked(client, f"{unit.pk}v1", pair[1])
    assert f'href="/units/{unit.pk}/claims/out-20/#capability"' in page
    assert f'href="/units/{unit.pk}/#measurement-mass"' in page


def test_the_address_keeps_the_order(client, pair):
    page = asked(client, pair[1], pair[0])
    picked = re.findall(r'data-compared="(\d+)"', page)
    assert picked == [str(pair[1].pk), str(pair[0].pk)]


def test_each_unit_can_be_taken_out_and_another_be_looked_for(client, pair):
    page = asked(client, *pair)
    assert f'href="/compare/?units={pair[1].pk}">Remove' in page
    assert f'name="units" value="{pair[0].pk},{pair[1].pk}"' in page


def test_without_units_it_asks_for_two_and_offers_the_newest(client, pair):
    page = text_of(client.get("/compare/"))
    assert "Choose at least two units" in page
    assert page.count('class="button second" href="/compare/?units=') == 2


def test_with_one_unit_it_keeps_it_and_asks_for_another(client, pair):
    page = asked(client, pair[0])
    assert "One unit is chosen" in page
    assert f'href="/compare/?units={pair[0].pk},{pair[1].pk}"' in page


def test_a_search_keeps_what_is_chosen(client, pair, alice):
    third = opened(alice)
    page = asked(client, *pair, q="veltrice")
    assert f'href="/compare/?units={pair[0].pk},{pair[1].pk},{third.pk}"' in page
    assert f'<a class="button" href="/compare/?units={pair[0].pk},{pair[1].pk}">Compare' in page


def test_whoever_adds_the_first_goes_on_in_what_was_found(client, pair):
    page = client.get("/compare/", {"q": "veltrice VQ"}).content.decode()
    following = re.search(r'class="button second" href="([^"]+)"', page)[1]
    assert "like=veltrice+VQ" in following
    again = client.get(html.unescape(following)).content.decode()
    assert "Found before" in again and 'name="q" value=""' in again


@pytest.mark.parametrize("words", ["nothing-like-this", "<script>", "\0", "'\"--", "x" * 5000])
def test_a_search_that_finds_nothing_says_so(client, pair, words):
    page = client.get("/compare/", {"q": words}).content.decode()
    assert "<script>" not in page.replace('<script type="module"', "")


@pytest.mark.parametrize(("bad", "said"), [
    ("abc", "“abc”: not the number of a unit"), ("999999", "There is no public unit 999999"),
    ("0", "“0”: not the number"), ("<b>", "“<b>”: not the number")])
def test_a_bad_piece_is_named_and_the_rest_kept(client, pair, bad, said):
    page = asked(client, pair[0], bad, pair[1])
    assert said in page and "Two units compared" in page


def test_what_was_typed_is_escaped(client, pair):
    raw = client.get("/compare/", {"units": f"{pair[0].pk},<b>,{pair[1].pk}"}).content.decode()
    assert "“&lt;b&gt;”" in raw and "“<b>”" not in raw


def test_a_version_that_there_is_not_is_named(client, pair):
    page = asked(client, f"{pair[0].pk}v7", *pair)
    assert f"Unit {pair[0].pk} has no public version 7" in page and "Two units compared" in page


def test_units_that_are_not_there_take_nobodys_place(client, pair):
    page = asked(client, *range(10**8, 10**8 + 6), *pair)
    assert "There is no public unit 100000005" in page and "Two units compared" in page
    assert "Left out" not in page


def test_a_withdrawn_unit_is_named_with_its_tombstone(client, mona, pair):
    withdraw_unit(by=mona, unit_pk=pair[0].pk, code="not_this_unit", facts="Another specimen.")
    page = asked(client, *pair)
    assert f"Unit {pair[0].pk} was withdrawn" in page
    assert f'href="/units/{pair[0].pk}/">When and why' in page and "One unit is chosen" in page


def test_a_draft_is_nobodys_business_not_even_as_a_title(client, alice, pair):
    draft = Unit.objects.create(contributor=alice, title="Secret draft")
    client.force_login(alice)
    page = asked(client, draft, *pair)
    assert "Secret draft" not in page and f"no public unit {draft.pk}" in page


def test_load_curves_are_laid_over_each_other(client, alice, tmp_path, pair):
    logged = Unit.objects.create(contributor=alice, title="Brimholt B3")
    held(alice, logged, tmp_path)
    published(logged)
    page = asked(client, logged, pair[0])
    assert "<b>A</b> <a" in page and "Brimholt B3, 5.00\u202fV" in page
    assert "No log of a load test: B." in page


def test_units_with_nothing_recorded_say_so_everywhere(client, alice):
    bare = {name: [] for name in ("printed_texts", "claims", "ports", "components", "stack",
                                  "insulation", "measurements")}
    page = asked(client, opened(alice, **bare), opened(alice, **bare))
    for words in ("No part was recorded", "No layer of a transformer", "this page cannot tell",
                  "None of these units has a photo with a scale", "No log of these units",
                  "cannot tell", "no power claim was recorded"):
        assert words in page, words
    assert ">0\u202f" not in page


def test_it_costs_at_most_twelve_queries(client, alice, django_assert_max_num_queries):
    units = [opened(alice) for _ in range(3)]
    client.force_login(alice)
    with django_assert_max_num_queries(12):
        asked(client, *units)
    with django_assert_max_num_queries(12):
        asked(client, *units[:2], q="veltrice")


def test_the_unit_page_leads_here(client, pair):
    page = text_of(client.get(pair[0].get_absolute_url()))
    assert (f'<a class="to-compare" href="/compare/?units={pair[0].pk}" '
            f'data-unit="{pair[0].pk}"') in page
