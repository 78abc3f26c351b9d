"""Making a withdrawn record public again."""
import pytest

from teardowns.services.withdraw_unit import withdraw_unit
from tests.corrections import public_unit
from tests.views.versions import address, page

WHY = {"code": "looked_at_again", "facts": "The photo shows this specimen after all."}


@pytest.fixture
def unit(alice, mona):
    made = public_unit(alice)
    withdraw_unit(by=mona, unit_pk=made.pk, code="not_this_unit", facts="Another specimen.")
    return made


def send(client, unit, **fields):
    return client.post(address(unit, "reinstate/"), WHY | fields)


def test_another_moderator_makes_it_public(client, unit, milo):
    client.force_login(milo)
    assert "Make it public again" in page(client, unit, status=410)
    assert "Another specimen." in page(client, unit, "reinstate/")
    assert send(client, unit).url == address(unit)
    assert unit.title in page(client, unit)


def test_who_withdrew_it_is_told_that_another_decides(client, unit, mona):
    client.force_login(mona)
    response = send(client, unit)
    assert response.status_code == 200
    assert "another moderator" in response.content.decode()
    page(client, unit, status=410)


@pytest.mark.parametrize("name", ["alice", "bob", "rita", "ada"])
def test_nobody_else(client, unit, name, request):
    client.force_login(request.getfixturevalue(name))
    page(client, unit, "reinstate/", status=403)
    assert send(client, unit).status_code == 403


def test_a_moderator_without_a_second_factor_is_asked_for_it(client, unit, milo):
    client.force_login(milo, second_factor=False)
    assert "/second-factor" in send(client, unit).url
    page(client, unit, status=410)


@pytest.mark.parametrize("bad", [{"code": ""}, {"facts": ""}])
def test_bad_input_is_answered_beside_the_field(client, unit, milo, bad):
    client.force_login(milo)
    response = send(client, unit, **bad)
    assert response.status_code == 200
    assert 'aria-invalid="true"' in response.content.decode()
