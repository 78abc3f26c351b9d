"""One report, taken on and resolved; who made it is told for a reason alone."""
import pytest

from core.audit.models import Entry
from teardowns.models import Charge, Report, Statement, Unit
from teardowns.services.receive_report import receive_report
from tests.published import published
from tests.views.deciding import look, send

pytestmark = pytest.mark.django_db
WHY = {"code": "not_supported", "facts": "The photo shows the same figure."}


@pytest.fixture
def desk(client, mona):
    client.force_login(mona)
    return client


@pytest.fixture
def report(unit, bob):
    published(unit)
    return receive_report(reporter=bob, about=f"unit/{unit.pk}", code="wrong_reading",
                          text="The figure is not what the photo shows.")


def address(report):
    return f"/moderation/reports/{report.pk}/"


def test_it_shows_what_was_said_and_not_who_said_it(desk, report):
    page = desk.get(address(report)).content.decode()
    assert report.text in page and "bob" not in page and "not shown" in page


@pytest.mark.parametrize(("do", "state"), [("upheld", "upheld"), ("dismissed", "dismissed")])
def test_it_is_resolved_after_a_look_at_the_statement(desk, report, do, state):
    assert WHY["facts"] in look(desk, address(report), do=do, **WHY)
    assert Report.objects.get().state == "open"
    send(desk, address(report), do=do, **WHY)
    assert Report.objects.get().state == state and Statement.objects.count() == 1
    assert WHY["facts"] in desk.get(address(report)).content.decode()


def test_without_a_choice_nothing_happens(desk, report):
    page = send(desk, address(report), **WHY).content.decode()
    assert "Choose what you decide." in page and Report.objects.get().state == "open"


def test_it_is_taken_on(desk, report, mona):
    desk.post(address(report), {"act": "take"})
    assert Charge.objects.get().owner == mona
    assert ">mona<" in desk.get(address(report)).content.decode()


def test_the_name_is_shown_for_a_reason_that_is_logged(desk, report):
    page = desk.post(address(report), {"act": "who", "why": ""}).content.decode()
    assert "Write why you need to know" in page and "bob" not in page
    page = desk.post(address(report), {"act": "who", "why": "A ring is suspected."})
    assert "bob" in page.content.decode()
    assert Entry.objects.filter(action="reporter_seen").count() == 1


def test_about_own_content_it_is_not_found(desk, report, mona):
    Unit.objects.update(contributor=mona)
    assert desk.get(address(report)).status_code == 404


@pytest.mark.parametrize("name", ["bob", "rita", "ada"])
def test_nobody_else_gets_in(client, request, report, name):
    client.force_login(request.getfixturevalue(name))
    assert client.get(address(report)).status_code == 403
    assert send(client, address(report), do="upheld", **WHY).status_code == 403


def test_it_costs_at_most_twelve_queries(desk, report, django_assert_max_num_queries):
    with django_assert_max_num_queries(12):
        desk.get(address(report))
