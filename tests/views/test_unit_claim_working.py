"""How one claim was judged."""
import re

import pytest
from django.urls import reverse

from teardowns.engine.verdicts import WORDS
from tests.views.opened import opened

pytestmark = pytest.mark.django_db


@pytest.fixture
def unit(alice):
    return opened(alice)


def sheet(client, unit, key="out-20"):
    return client.get(reverse("unit_claim_working", args=[unit.pk, key]))


def text_of(response):
    return " ".join(re.sub(r"<[^>]+>", " ", response.content.decode()).split())


def test_it_shows_prior_weights_capability_and_the_choice_of_the_word(client, unit):
    page = sheet(client, unit).content.decode()
    order = re.findall(r'<section class="rec" id="([^"]+)"', page)
    assert order == ["prior", "weights", "capability", "word", "cautions"]
    assert "Even odds" in page


def test_it_names_where_the_claim_holds(client, unit):
    # 0.95 and 1.6 times 45 W are 42.75 and 72 W; 1/12 of it is 3.75 W
    assert "42.8 to 72.0 W" in text_of(sheet(client, unit))
    assert "3.8 to 42.8 W" in text_of(sheet(client, unit))


def test_it_shows_every_weight_of_the_assessment(client, unit):
    claim = next(claim for claim in unit.publication.standing.payload["claims"]
                 if claim["ref"] == "claim/out-20")
    page = sheet(client, unit).content.decode()
    for weight in claim["weights"]:
        assert f"/working/{weight['line']}/low/?claim=out-20" in page
    assert claim["weights"]


def test_exactly_one_word_is_marked_as_chosen_out_of_all(client, unit):
    page = sheet(client, unit).content.decode()
    words = page[page.index('<ul class="words">'):]
    assert words.count("(this claim)") == 1
    assert all(word in words for word in WORDS)


def test_a_claim_that_no_rule_judges_has_no_sheet(client, unit):
    assert sheet(client, unit, "model").status_code == 404
    assert sheet(client, unit, "no-such-claim").status_code == 404


def test_it_rejects_post(client, unit):
    address = reverse("unit_claim_working", args=[unit.pk, "out-20"])
    assert client.post(address).status_code == 405


def test_a_draft_is_nobody_elses_business(client, alice, bob):
    client.force_login(bob)
    assert sheet(client, opened(alice, "draft")).status_code == 404


def test_it_takes_at_most_twelve_queries(client, unit, django_assert_max_num_queries):
    with django_assert_max_num_queries(12):
        sheet(client, unit)
