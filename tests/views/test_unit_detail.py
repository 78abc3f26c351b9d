"""The unit page: the answer first, then its proof."""
import re

import pytest
from django.urls import reverse

from teardowns.models import Review
from teardowns.services.import_unit import import_unit
from tests.views.opened import opened

pytestmark = pytest.mark.django_db


@pytest.fixture
def unit(alice):
    return opened(alice)


@pytest.fixture
def html(client, unit):
    return client.get(reverse("unit_detail", args=[unit.pk])).content.decode()


def text_of(page):
    return " ".join(re.sub(r"<[^>]+>", " ", page).split())


def test_it_answers_before_it_proves(html):
    answer = html.index("The evidence does not support the printed claim of 45\u202fW")
    assert answer < html.index('id="claims"') < html.index('id="evidence"')


def test_sections_stand_in_their_fixed_order(html):
    order = re.findall(r'<section class="rec" id="([^"]+)"', html)
    assert order == ["claims", "power", "voltages", "checks", "insulation", "evidence",
                     "replies", "next",
                     "cautions"]


def test_it_rejects_post(client, unit):
    assert client.post(reverse("unit_detail", args=[unit.pk])).status_code == 405


def test_a_draft_is_seen_by_its_owner_and_by_nobody_else(client, alice, bob):
    address = reverse("unit_detail", args=[opened(alice, "draft").pk])
    assert client.get(address).status_code == 404
    client.force_login(bob)
    assert client.get(address).status_code == 404
    client.force_login(alice)
    assert client.get(address).status_code == 200


@pytest.mark.parametrize("signed_in", [False, True])
def test_it_takes_at_most_twelve_queries(
    client, unit, alice, signed_in, django_assert_max_num_queries
):
    if signed_in:
        client.force_login(alice)
    with django_assert_max_num_queries(12):
        client.get(reverse("unit_detail", args=[unit.pk]))


def test_more_evidence_takes_no_more_queries(client, unit, alice, django_assert_max_num_queries):
    for number in range(40):
        unit.measurements.create(key=f"more-{number}", quantity="no_load_power", value=0.1,
                                 author=alice)
    with django_assert_max_num_queries(10):
        client.get(reverse("unit_detail", args=[unit.pk]))


def test_the_facts_name_claim_capability_verdict_mass_and_review(html):
    facts = text_of(html.split('<dl class="facts">')[1].split("</dl>")[0])
    assert "Claimed 45 W" in facts
    assert "Capability at 100 V" in facts and "90 %:" in facts
    # 46.2 g in 5 × 4 × 2.1 cm = 42 cm³ are 1.10 g/cm³
    assert "46.2 g 1.10 g/cm³" in facts
    assert "19 of 19" in facts


def test_both_mains_ends_have_their_ladder(html):
    assert html.count('class="scale ladder"') == 2
    assert "at 100\u202fV 50\u202fHz" in html and "at 240\u202fV 50\u202fHz" in html


def test_each_number_of_the_ladder_links_to_its_working(html, unit):
    ladder = html[html.index('class="scale ladder"'):html.index("</table>", html.index("ladder"))]
    assert f"/units/{unit.pk}/working/power/bulk_capacitor/low/" in ladder
    assert f"/units/{unit.pk}/claims/out-20/#capability" in ladder


def test_every_link_inside_the_page_has_its_target(html):
    ids = re.findall(r' id="([^"]+)"', html)
    assert len(set(ids)) == len(ids)
    assert set(re.findall(r'href="#([^"]+)"', html)) <= {*ids, *symbols(html)}


def symbols(page):
    return re.findall(r'<symbol id="([^"]+)"', page)


def test_the_three_ways_of_not_having_a_value_are_told_apart(html):
    for state in ("not_looked", "not_found", "not_readable"):
        assert f'href="#s-{state}"' in html
    assert "1 recorded, 1 looked for and not found, 1 not readable, 1 not looked at." in html


def test_the_plate_is_shown_letter_by_letter_with_its_claims_marked(html):
    assert '<mark><a href="#claim-out-20">20V⎓2.25A</a></mark> &lt;Max&gt;' in html


def test_what_was_typed_cannot_inject_markup(html):
    assert "Sleeve &lt;partly&gt; glued." in html
    assert "<partly>" not in html


def test_a_claim_that_no_rule_judges_is_listed_without_a_verdict(html):
    part = html[html.index("Recorded, not judged"):html.index('id="power"')]
    assert "VQ-45" in part and "chip" not in part


def test_the_answer_about_hazards_stands_at_the_head_and_before_its_map(html):
    head, section = html[:html.index('class="facts"')], html[html.index('id="insulation"'):]
    answer = "In the unit examined nothing that the evidence decides falls short"
    assert answer in head
    assert section.index(answer) < section.index('class="scale barrier"')


def test_a_path_that_nobody_measured_is_an_open_question_with_its_requirement(html):
    row = text_of(html[html.index("Mains pin to case seam"):])
    # 5.4.2 at 240 V, pollution degree 2: 3.0 mm reinforced (test report on a charger, 2021, p. 43)
    assert row.startswith("Mains pin to case seam clearance")
    assert "cannot tell not looked at required 3 mm" in row[:400]


def test_the_hazard_section_never_reassures(html):
    part = text_of(html[html.index('id="insulation"'):html.index('id="evidence"')])
    assert "which is no pass" in part
    assert "safe" not in part.replace("safety", "")


def test_every_number_of_the_barrier_map_opens_into_its_working(client, html):
    figure = html[html.index('class="scale barrier"'):]
    figure = figure[:figure.index("</table>")]
    addresses = re.findall(r'href="(/units/[^"]+/working/safety/[^"]+)"', figure)
    assert len(addresses) == 2
    for address in addresses:
        assert client.get(address).status_code == 200


def test_what_is_taken_for_granted_is_named_beside_what_rests_on_it(html):
    part = html[html.index('id="insulation"'):html.index('id="evidence"')]
    named = re.findall(r'href="#(assumed-[^"]+)"', part)
    assert named and {f'id="{name}"' in part for name in named} == {True}


def test_the_facts_put_what_is_open_before_what_meets(html):
    facts = text_of(html.split('<dl class="facts">')[1].split("</dl>")[0])
    assert re.search(r"Points about safety \d+ open (\d+ not recorded, )?none found short, "
                     r"\d+ meet", facts)


SHORT = {"key": "board", "path": "creepage", "place": "Beside the transformer", "value": 0.0018,
         "uncertainty": 0.0001, "uncertainty_kind": "interval"}


def decide(unit, reviewer, *refs):
    review = Review.objects.create(unit=unit, reviewer=reviewer)
    for ref in refs:
        review.decisions.create(ref=ref, evidence_version=1, decision="confirmed")


@pytest.mark.parametrize("count", [1, 2])
def test_a_serious_finding_is_a_headline_only_once_two_reviewers_have_confirmed_it(
        client, alice, rita, rolf, count):
    unit = opened(alice, insulation=[SHORT])
    finding = unit.publication.standing.payload["safety"]["findings"][0]
    for reviewer in (rita, rolf)[:count]:
        decide(unit, reviewer, *finding["evidence"])
    page = text_of(client.get(reverse("unit_detail", args=[unit.pk])).content.decode())
    assert ("Serious risk, confirmed by two independent reviewers" in page) == (count == 2)
    assert "What it can lead to" in page
    level = "serious" if count == 2 else "serious, not yet agreed on by two reviewers"
    assert f"Gravest finding {level} {finding['title']}" in page
    assert ("one reviewer is enough for a row" in page) == (count == 1)


def test_a_page_with_findings_takes_at_most_twelve_queries(
        client, alice, django_assert_max_num_queries):
    unit = opened(alice, insulation=[SHORT])
    with django_assert_max_num_queries(12):
        client.get(reverse("unit_detail", args=[unit.pk]))


def test_an_assessment_from_before_safety_was_judged_cannot_tell(client, unit):
    stored = unit.publication.standing
    del stored.payload["safety"]
    stored.save()
    page = text_of(client.get(reverse("unit_detail", args=[unit.pk])).content.decode())
    assert "is of a rulebook that did not judge safety" in page


def test_the_cautions_stand_on_the_page(html):
    assert "It is not a safety certificate" in html


def test_the_foot_names_the_sample_and_what_it_was_judged_by(html, unit):
    foot = text_of(html[html.index('aria-label="The record"'):])
    assessment = unit.publication.standing
    assert "One unit, online marketplace, obtained 2026-03-14, price 11.90 EUR" in foot
    assert "Apparent origin and authenticity of the unit were not established." in foot
    assert assessment.rulebook.replace("+", ", ") in foot
    assert reverse("unit_document", args=[unit.pk]) in html


def test_a_unit_without_any_evidence_says_so(client, alice):
    bare = opened(alice, **{name: [] for name in (
        "printed_texts", "claims", "ports", "components", "stack", "insulation", "measurements")})
    page = text_of(client.get(reverse("unit_detail", args=[bare.pk])).content.decode())
    assert "No power claim was recorded. Nothing that bears on power was recorded either." in page
    assert "Nothing has been recorded yet." in page


def test_a_unit_that_was_not_assessed_still_shows_its_evidence(client, alice):
    from tests.views.opened import DOCUMENT

    unit = import_unit(DOCUMENT, alice, "in_review")
    client.force_login(alice)
    page = client.get(reverse("unit_detail", args=[unit.pk])).content.decode()
    assert "has not been assessed yet" in page
    assert 'id="measurement-mass"' in page and 'id="claims"' not in page


def test_no_style_attribute_and_no_inline_script_is_written(html):
    assert " style=" not in html
    assert not re.search(r"<script(?![^>]*\bsrc=)", html)
    assert not re.search(r"\son\w+=", html)


def test_what_to_measure_next_stands_with_all_open_questions_or_says_that_nothing_is_left(html):
    part = html[html.index('id="next"'):html.index('id="cautions"')]
    assert "What to measure next" in part and "All open questions" in part
    assert ('class="scale gains"' in part) != ("Nothing left to measure" in part)
