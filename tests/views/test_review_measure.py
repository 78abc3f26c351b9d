"""A second reading without the first in sight; both stay."""
import pytest

from teardowns.models import ReviewDecision
from tests.reviews import handed_in, take_on

pytestmark = pytest.mark.django_db


@pytest.fixture
def held(unit, rita, client):
    """51.4 ± 1 g (95 %)."""
    handed_in(unit, {"value": 0.0514, "note": "51.4 g on the letter scale"},
              {"quantity": "loose_metal", "value": 1.0, "uncertainty": None,
               "uncertainty_kind": ""})
    take_on(rita, unit)
    client.force_login(rita)
    return unit


def address(unit, key="m0", kind="measurement"):
    return f"/reviews/{unit.pk}/measure/{kind}/{key}/"


def send(client, unit, **typed):
    return client.post(address(unit), {"version": 1, "spread_kind": "interval"} | typed)


def test_the_first_value_is_nowhere_on_the_page(client, held):
    page = client.get(address(held)).content.decode()
    assert "Mass of the whole unit" in page and "51.4" not in page


def test_the_sheet_leads_there(client, held):
    assert address(held) in client.get(f"/reviews/{held.pk}/").content.decode()


def test_both_readings_stand_beside_each_other_afterwards(client, held):
    # u = 0.5 g and 0.6 g: 2 · √(0.5² + 0.6²) = 1.56 g; 52.8 − 51.4 = 1.4 g
    answer = send(client, held, value="52.8 g", spread="1.2 g", reason="Another scale")
    assert answer.url == f"/reviews/{held.pk}/#measurement-m0"
    word = ReviewDecision.objects.get()
    assert (word.second_value, word.second_uncertainty, word.agrees) == (
        pytest.approx(0.0528), pytest.approx(0.0006), True)
    page = client.get(answer.url).content.decode()
    assert "You measured it anew: 52.8" in page and "agrees with the first. Another scale" in page
    assert "51.4" in page and held.measurements.get(key="m0").value == 0.0514


def test_a_reading_that_differs_keeps_the_row_from_counting(client, held):
    send(client, held, value="53.1 g", spread="1.2 g")
    assert held.measurements.get(key="m0").review_state == "disputed"


@pytest.mark.parametrize(("typed", "words"), [
    ({"value": ""}, "Write what you measured"), ({"value": "heavy"}, "heavy"),
    ({"value": "90 kg"}, "outside what can exist here"),
    ({"value": "50 g", "spread": "2 kg"}, "larger than the value")])
def test_what_cannot_be_a_reading_is_told_and_kept(client, held, typed, words):
    answer = send(client, held, reason="My scale", **typed)
    page = answer.content.decode()
    assert answer.status_code == 200 and words in page and "My scale" in page
    assert ReviewDecision.objects.count() == 0


def test_a_row_that_changed_meanwhile_is_told(client, held):
    held.measurements.filter(key="m0").update(version=2)
    page = send(client, held, value="52 g").content.decode()
    assert "changed since you saw it" in page and "52 g" in page


def test_a_flag_and_what_is_not_there_are_not_measured(client, held):
    for place in (address(held, "m1"), address(held, "none"), address(held, "m0", "claim"),
                  address(held, "m0", "nothing")):
        assert client.get(place).status_code == 404


def test_only_who_holds_the_review_measures(client, held, rolf, alice):
    for person, status in ((rolf, 404), (alice, 403)):
        client.force_login(person)
        assert client.get(address(held)).status_code == status
