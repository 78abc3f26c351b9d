"""Proposing a correction."""
import pytest

from teardowns.models import Correction, Unit
from teardowns.services.drop_correction import drop_correction
from tests.corrections import WHY, corrected, public_unit, write
from tests.views.versions import address, page

ONCE = "3f0a7a56-2a6e-4d5c-8a51-0d3c5a5b7e11"


@pytest.fixture
def unit(alice):
    return public_unit(alice)


def send(client, unit, **fields):
    return client.post(address(unit, "correct/"), {"reason": WHY} | fields)


def test_it_works_and_leads_to_the_bench(client, unit, bob):
    client.force_login(bob)
    assert "Propose a correction" in page(client, unit, "correct/")
    response = send(client, unit)
    assert response.status_code == 302 and response.url.startswith(f"/bench/{unit.pk}/")
    assert client.get(response.url).status_code == 200
    assert Correction.objects.get().author == bob


def test_sent_twice_it_is_opened_once(client, unit, bob):
    client.force_login(bob)
    answers = [send(client, unit, once=ONCE).headers["Location"] for _ in range(2)]
    assert answers[0] == answers[1] and Correction.objects.count() == 1


def test_nobody_who_is_not_signed_in(client, unit):
    response = send(client, unit)
    assert response.status_code == 302 and not response.url.startswith("/bench/")
    assert Correction.objects.count() == 0


def test_an_administrator_has_no_part_in_content(client, unit, ada):
    client.force_login(ada)
    page(client, unit, "correct/", status=403)


@pytest.mark.parametrize("spoilt", [{"suspended_at": "2026-01-01T00:00Z"},
                                    {"email_verified_at": None}])
def test_not_out_of_good_standing(client, unit, bob, spoilt):
    type(bob).objects.filter(pk=bob.pk).update(**spoilt)
    client.force_login(bob)
    assert send(client, unit).status_code == 403
    assert Correction.objects.count() == 0


@pytest.mark.parametrize("reason", ["", "wrong", "   \n  "])
def test_a_reason_that_says_nothing_is_answered_beside_the_field(client, unit, bob, reason):
    client.force_login(bob)
    response = send(client, unit, reason=reason)
    assert response.status_code == 200 and Correction.objects.count() == 0
    text = response.content.decode()
    assert "how you know" in text and f">\n{reason}</textarea>" in text
    assert 'aria-invalid="true"' in text


def test_a_second_one_is_told_who_has_the_first(client, unit, bob, rita):
    corrected(unit, rita)
    client.force_login(bob)
    assert "rita has a correction" in page(client, unit, "correct/")
    response = send(client, unit)
    assert response.status_code == 200 and "rita has a correction" in response.content.decode()


def test_ones_own_open_one_leads_to_the_bench(client, unit, bob):
    corrected(unit, bob)
    client.force_login(bob)
    assert client.get(address(unit, "correct/")).url.startswith(f"/bench/{unit.pk}/")


def test_what_came_to_nothing_can_be_taken_up_once_more(client, unit, bob):
    corrected(unit, bob)
    write(unit)
    earlier = drop_correction(author=bob, unit_pk=unit.pk)
    client.force_login(bob)
    assert "what you proposed on" in page(client, unit, "correct/")
    assert send(client, unit, again=earlier.pk).status_code == 302
    assert unit.measurements.filter(key="volts").exists()


@pytest.mark.parametrize("again", ["x", "999", "-1"])
def test_another_beginning_is_no_choice(client, unit, bob, again):
    corrected(unit, bob)
    drop_correction(author=bob, unit_pk=unit.pk)
    client.force_login(bob)
    assert send(client, unit, again=again).status_code == 200
    assert not Correction.objects.filter(closed_at=None).exists()


@pytest.mark.parametrize("status, answer", [
    ("draft", 404), ("submitted", 404), ("in_review", 404), ("sent_back", 404), ("declined", 404),
    ("discarded", 404), ("withdrawn", 410)])
def test_only_what_is_public(client, alice, bob, status, answer):
    draft = Unit.objects.create(contributor=alice, title="Draft", status=status) \
        if status != "withdrawn" else public_unit(alice)
    Unit.objects.filter(pk=draft.pk).update(status=status)
    client.force_login(bob)
    page(client, draft, "correct/", status=answer)
    assert send(client, draft).status_code == answer
    assert Correction.objects.count() == 0
