"""Both sides of the evidence, and what rests on each row."""
import pytest

from teardowns.models import Review
from teardowns.services import review_sides as service
from teardowns.services.review_sides import renew_sides, review_sides
from tests.reviews import handed_in, take_on
from tests.views.reviewed import rich_unit

pytestmark = pytest.mark.django_db


@pytest.fixture
def rich(alice):
    return rich_unit(alice)


def test_nothing_is_confirmed_at_first_and_all_evidence_speaks(rich):
    sides = review_sides(rich)
    assert sides["confirmed"]["claims"] == [] and sides["confirmed"]["capability"] is None
    assert len(sides["all"]["claims"]) == 6 and sides["all"]["level"] == "high"


def test_what_rests_on_a_row_is_named_the_gravest_first(rich):
    rests = review_sides(rich)["rests"]
    plate, = (key for key in rests if key.startswith("printedtext/") and rests[key][0]["count"] > 1)
    assert rests[plate] == [{"kind": "claims", "count": 8}]
    distance = next(entries for entries in rests.values() if entries[0]["kind"] == "finding")
    assert distance[0]["level"] == "high"
    assert rests["claim/out-5v"][0] == {"kind": "claim", "verdict": "supported"}


def test_trouble_in_the_engine_loses_no_decision(unit, rita, monkeypatch, caplog):
    take_on(rita, handed_in(unit))

    def trouble(*_):
        raise ArithmeticError("no number")
    monkeypatch.setattr(service, "verdicts", trouble)
    renew_sides(unit)
    assert Review.objects.get().sides == {} and "could not be assessed" in caplog.text
