"""Withdrawing, the tombstone, and the way back."""
from hashlib import sha256

import pytest

from teardowns.models import Statement, Unit
from teardowns.services.withdraw_unit import withdraw_unit
from tests.corrections import corrected, public_unit
from tests.views.versions import address, page, two_versions

WHY = {"code": "not_this_unit", "facts": "Photo 3 shows another specimen."}
ONCE = "3f0a7a56-2a6e-4d5c-8a51-0d3c5a5b7e11"


@pytest.fixture
def unit(alice):
    return public_unit(alice)


def send(client, unit, **fields):
    return client.post(address(unit, "withdraw/"), WHY | fields)


@pytest.mark.parametrize("name, words", [("alice", "by its contributor"),
                                         ("mona", "by a moderator")])
def test_it_works_and_the_tombstone_says_by_which_role(client, unit, name, words, request):
    client.force_login(request.getfixturevalue(name))
    assert "Withdraw this record" in page(client, unit, "withdraw/")
    response = send(client, unit)
    assert response.url == address(unit)
    text = page(client, unit, status=410)
    assert words in text and WHY["facts"] in text and "A picture or a reading" in text


@pytest.mark.parametrize("name", ["bob", "rita"])
def test_nobody_else_finds_the_page(client, unit, name, request):
    client.force_login(request.getfixturevalue(name))
    page(client, unit, "withdraw/", status=404)
    assert send(client, unit).status_code == 404


def test_an_administrator_is_refused(client, unit, ada):
    client.force_login(ada)
    assert send(client, unit).status_code == 403


@pytest.mark.parametrize("bad, field", [({"code": ""}, "code"), ({"code": "x"}, "code"),
                                        ({"facts": ""}, "facts"), ({"facts": " "}, "facts")])
def test_bad_input_is_answered_beside_the_field_and_kept(client, unit, alice, bad, field):
    client.force_login(alice)
    response = send(client, unit, **bad)
    text = response.content.decode()
    assert response.status_code == 200 and f'id="id_{field}_error"' in text
    assert field == "facts" or WHY["facts"] in text
    assert Statement.objects.count() == 0


def test_sent_twice_it_is_withdrawn_once(client, unit, alice):
    client.force_login(alice)
    answers = {send(client, unit, once=ONCE).headers["Location"] for _ in range(2)}
    assert answers == {address(unit)} and Statement.objects.count() == 1


def test_withdrawn_already_it_says_so(client, unit, alice):
    withdraw_unit(by=alice, unit_pk=unit.pk, **WHY)
    client.force_login(alice)
    response = send(client, unit)
    assert response.status_code == 200 and "nothing to withdraw" in response.content.decode()


def test_an_open_correction_is_named_before(client, unit, alice, bob):
    corrected(unit, bob)
    client.force_login(alice)
    assert "A correction of it is open" in page(client, unit, "withdraw/")


ENDS = ("", "versions/", "versions/1/", "versions/2/", "versions/2/against/1/")
# Its contributor and moderators still have what lies behind these.
PUBLIC_ENDS = ("document.json", "claims/out-5v/", "working/power/bulk_capacitor/low/",
               "recordings/", "photos/board-top/", "photos/board-top/320.webp")


@pytest.mark.parametrize("name", ["anybody", "bob", "alice", "mona"])
def test_every_address_of_it_answers_with_the_tombstone_and_nothing_it_held(
        client, alice, bob, mona, name, request):
    unit = two_versions(alice, bob, mona)
    withdraw_unit(by=alice, unit_pk=unit.pk, **WHY)
    if name != "anybody":
        client.force_login(request.getfixturevalue(name))
    others = PUBLIC_ENDS if name in ("anybody", "bob") else ()
    for end in (*ENDS, *others):
        text = page(client, unit, end, status=410)
        assert WHY["facts"] in text
        for held in (unit.title, "12.30", "5V⎓3A", "Ostrava"):
            assert held not in text, (end, held)


def test_proposing_a_correction_of_it_answers_so_too(client, unit, alice, bob):
    withdraw_unit(by=alice, unit_pk=unit.pk, **WHY)
    client.force_login(bob)
    page(client, unit, "correct/", status=410)


@pytest.mark.parametrize("end", ["nowhere/", "versions/x/"])
def test_what_never_was_is_not_found(client, unit, alice, end):
    withdraw_unit(by=alice, unit_pk=unit.pk, **WHY)
    page(client, unit, end, status=404)


def test_it_leads_on_to_the_record_of_the_same_specimen(client, unit, alice, mona):
    other = public_unit(alice, uid="6f1d7c1e-5f0a-4c39-9d51-0d3c5a5b7e12")
    withdraw_unit(by=mona, unit_pk=unit.pk, code="duplicate", facts="One specimen.")
    Unit.objects.filter(pk=unit.pk).update(successor=other)
    assert f'href="{address(other)}"' in page(client, unit, status=410)


def test_who_kept_the_document_recognises_it_by_its_digest(client, unit, alice):
    document = client.get(address(unit, "document.json")).content
    withdraw_unit(by=alice, unit_pk=unit.pk, **WHY)
    assert sha256(document).hexdigest() in page(client, unit, status=410)


def test_it_is_off_the_list(client, unit, alice):
    assert unit.title in client.get("/units/").content.decode()
    withdraw_unit(by=alice, unit_pk=unit.pk, **WHY)
    assert unit.title not in client.get("/units/").content.decode()
