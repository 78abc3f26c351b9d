"""One proposed correction: who reads it, and what it says."""
import pytest

from teardowns.models import Correction
from teardowns.services.drop_correction import drop_correction
from tests.corrections import WHY, corrected, public_unit, write
from tests.reviews import take_on
from tests.views.versions import address, page, two_versions

PEOPLE = ("anybody", "alice", "bob", "rita", "mona", "ada")
# Bob's correction of Alice's unit, by its stage: who may read it. Rita holds no review of it.
READS = {
    "draft": {"alice", "bob"}, "sent_back": {"alice", "bob", "mona"},
    "submitted": {"alice", "bob", "mona"}, "in_review": {"alice", "bob", "mona"},
    "declined": {"alice", "bob", "mona"}, "discarded": {"alice", "bob"},
}


@pytest.fixture
def unit(alice):
    return public_unit(alice)


def end(correction):
    return f"corrections/{correction.pk}/"


@pytest.mark.parametrize("stage", READS)
@pytest.mark.parametrize("name", PEOPLE)
def test_it_is_read_by_whom_it_concerns(client, unit, bob, stage, name, request):
    correction = corrected(unit, bob)
    Correction.objects.filter(pk=correction.pk).update(status=stage)
    if name != "anybody":
        client.force_login(request.getfixturevalue(name))
    page(client, unit, end(correction), status=200 if name in READS[stage] else 404)


def test_it_says_why_what_and_where_it_stands(client, unit, bob):
    correction = corrected(unit, bob)
    write(unit)
    client.force_login(bob)
    text = page(client, unit, end(correction))
    assert WHY in text and "Being written" in text and "13.00 ± 0.10 W" in text
    assert f'href="/bench/{unit.pk}/submit/"' in text


def test_what_was_dropped_stays_readable_to_its_author(client, unit, bob):
    corrected(unit, bob)
    write(unit)
    dropped = drop_correction(author=bob, unit_pk=unit.pk, reason="Measured once more")
    client.force_login(bob)
    text = page(client, unit, end(dropped))
    assert "Dropped" in text and "Measured once more" in text and "13.00 ± 0.10 W" in text
    assert "Propose it once more" in text


def test_a_published_one_is_the_difference_of_its_versions(client, alice, bob, mona):
    unit = two_versions(alice, bob, mona)
    response = client.get(address(unit, end(unit.corrections.get())))
    assert response.url == address(unit, "versions/2/against/1/")


def test_not_under_another_unit(client, unit, bob, alice):
    correction = corrected(unit, bob)
    other = public_unit(alice, uid="6f1d7c1e-5f0a-4c39-9d51-0d3c5a5b7e12")
    client.force_login(bob)
    page(client, other, end(correction), status=404)


def test_it_asks_at_most_twelve_queries_beside_the_rows(
        client, unit, bob, django_assert_max_num_queries):
    correction = corrected(unit, bob)
    write(unit)
    drop_correction(author=bob, unit_pk=unit.pk)
    client.force_login(bob)
    with django_assert_max_num_queries(12):
        page(client, unit, end(correction))


def test_it_is_looked_at_before_it_is_handed_in(client, unit, bob):
    correction = corrected(unit, bob)
    client.force_login(bob)
    there = f'href="{address(unit, end(correction))}"'
    assert there in client.get(f"/bench/{unit.pk}/submit/").content.decode()
    Correction.objects.filter(pk=correction.pk).update(status="submitted")
    assert there in client.get(f"/bench/{unit.pk}/submit/").content.decode()


def test_a_reviewer_who_took_it_on_is_led_to_it_and_may_read_it(client, unit, bob, rita):
    correction = corrected(unit, bob)
    write(unit)
    Correction.objects.filter(pk=correction.pk).update(status="submitted")
    take_on(rita, unit)
    client.force_login(rita)
    sheet = client.get(f"/reviews/{unit.pk}/").content.decode()
    assert f'href="{address(unit, end(correction))}"' in sheet
    assert "13.00 ± 0.10 W" in page(client, unit, end(correction))
