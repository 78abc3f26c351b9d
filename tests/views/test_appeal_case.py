"""An appeal with its clock, decided by a moderator who did not take the decision."""
import pytest

from teardowns.models import Appeal, Charge, Unit
from teardowns.services.appeal import open_appeal
from teardowns.services.quarantine_unit import quarantine_unit
from tests.published import published
from tests.views.deciding import look, send

pytestmark = pytest.mark.django_db
WHY = {"code": "looked_at_again", "facts": "It is the same board, cleaned."}


@pytest.fixture
def appeal(unit, alice, mona):
    published(unit)
    statement = quarantine_unit(moderator=mona, unit_pk=unit.pk, code="not_this_unit",
                                facts="Photo 2 shows another board.")
    return open_appeal(author=alice, uid=statement.uid, text="The same board, cleaned.")


def address(appeal):
    return f"/moderation/appeals/{appeal.pk}/"


def test_the_first_statement_stands_beside_it_with_the_time_left(client, appeal, milo):
    client.force_login(milo)
    page = client.get(address(appeal)).content.decode()
    assert "Photo 2 shows another board." in page and appeal.text in page and "13 days left" in page
    assert address(appeal) in client.get("/moderation/appeals/").content.decode()


def test_another_moderator_reverses_it_after_a_look(client, appeal, milo):
    client.force_login(milo)
    assert "This will be sent" in look(client, address(appeal), do="reversed", **WHY)
    assert Appeal.objects.get().state == "open"
    send(client, address(appeal), do="reversed", **WHY)
    assert Appeal.objects.get().state == "reversed" and Unit.objects.published().exists()


def test_it_stands(client, appeal, milo):
    client.force_login(milo)
    send(client, address(appeal), do="upheld", **WHY | {"code": "not_this_unit"})
    assert Appeal.objects.get().state == "upheld" and not Unit.objects.published().exists()


def test_who_took_the_decision_sees_it_and_cannot_decide(client, appeal, mona):
    client.force_login(mona)
    assert "another moderator decides" in client.get(address(appeal)).content.decode()
    assert send(client, address(appeal), do="reversed", **WHY).status_code == 404
    client.post(address(appeal), {"act": "take"})
    assert not Charge.objects.exists() and Appeal.objects.get().state == "open"


def test_it_is_taken_on(client, appeal, milo):
    client.force_login(milo)
    client.post(address(appeal), {"act": "take"})
    assert ">milo<" in client.get("/moderation/appeals/").content.decode()


@pytest.mark.parametrize("name", ["alice", "rita", "ada"])
def test_nobody_else_gets_in(client, request, appeal, name):
    client.force_login(request.getfixturevalue(name))
    assert client.get(address(appeal)).status_code == 403


def test_it_costs_at_most_twelve_queries(client, appeal, milo, django_assert_max_num_queries):
    client.force_login(milo)
    with django_assert_max_num_queries(12):
        client.get(address(appeal))
