"""Decisions: of the whole form, or of one row in JSON."""
import re

import pytest

from teardowns.models import PhotoReading, ReviewDecision
from tests.reviews import decide, handed_in, take_on

pytestmark = pytest.mark.django_db
JSON = {"headers": {"accept": "application/json"}}
M0, M1 = "measurement/m0", "measurement/m1"


@pytest.fixture
def held(unit, rita, client):
    handed_in(unit, {}, {})
    take_on(rita, unit)
    client.force_login(rita)
    return unit


def sent(ref, decision, reason="", version=1):
    return {f"{ref}-version": version, f"{ref}-decision": decision, f"{ref}-reason": reason}


def post(client, unit, data, query="", **more):
    return client.post(f"/reviews/{unit.pk}/decide/{query}", data, **more)


def said():
    return list(ReviewDecision.objects.values_list("ref", "decision"))


def test_all_that_is_chosen_is_saved_and_the_page_goes_on_at_the_next(client, held):
    answer = post(client, held, sent(M0, "confirmed"), "?kind=measurement")
    assert answer.url == f"/reviews/{held.pk}/?kind=measurement#measurement-m1"
    assert said() == [(M0, "confirmed")]


def test_when_everything_is_decided_it_goes_on_to_the_end(client, held):
    answer = post(client, held, sent(M0, "confirmed") | sent(M1, "disputed", "Blurred"))
    assert answer.url.endswith("#close") and len(said()) == 2


def test_what_is_wrong_is_told_and_kept_and_the_rest_is_saved(client, held):
    answer = post(client, held, sent(M0, "disputed") | sent(M1, "confirmed"))
    page = answer.content.decode()
    assert answer.status_code == 200 and said() == [(M1, "confirmed")]
    assert "1 decision not saved" in page and "Say why" in page
    chosen = re.search(r'<input[^>]*name="measurement/m0-decision"[^>]*checked[^>]*>', page)
    assert 'value="disputed"' in chosen[0]


def test_a_reason_of_a_wrong_decision_is_kept(client, held):
    held.measurements.filter(key="m0").update(version=2)
    page = post(client, held, sent(M0, "disputed", "The scale shows 60 g")).content.decode()
    assert "changed since you saw it" in page and "The scale shows 60 g" in page
    assert 'name="measurement/m0-version" value="2"' in page and said() == []


def test_what_stands_already_is_not_said_again(client, held, rita):
    decide(rita, held)
    post(client, held, sent(M0, "confirmed") | sent(M1, "confirmed"))
    assert said() == [(M0, "confirmed"), (M1, "confirmed")]


def test_a_form_in_which_nothing_is_chosen_says_nothing(client, held):
    assert post(client, held, {f"{M0}-version": 1, f"{M0}-decision": ""}).status_code == 302
    assert said() == []


def test_one_decision_is_answered_with_the_parts_that_changed(client, held):
    answer = post(client, held, sent(M0, "confirmed") | {"only": M0}, **JSON).json()
    assert answer["told"] == "1 of 2 decided" and answer["next"] == "measurement-m1"
    assert "You confirmed it." in answer["said"] and "Can deliver" in answer["sides"]
    assert not answer["isDone"]


def test_in_json_only_the_row_that_is_meant_is_decided(client, held):
    post(client, held, sent(M0, "confirmed") | sent(M1, "confirmed") | {"only": M0}, **JSON)
    assert said() == [(M0, "confirmed")]


@pytest.mark.parametrize(("data", "field"), [
    (sent(M0, "disputed"), "reason"), (sent(M0, ""), "decision"),
    (sent(M0, "published"), "decision"), (sent(M0, "remeasured"), "__all__"),
    (sent(M0, "confirmed", version="x"), "version"), (sent("unit/title", "confirmed"), "__all__")])
def test_a_wrong_decision_is_refused_with_its_field(client, held, data, field):
    ref = next(iter(data)).rsplit("-", 1)[0]
    answer = post(client, held, data | {"only": ref}, **JSON)
    assert answer.status_code == 422 and field in answer.json()["errors"]
    assert said() == []


def test_a_row_that_changed_is_stale(client, held):
    held.measurements.update(version=2)
    answer = post(client, held, sent(M0, "confirmed") | {"only": M0}, **JSON)
    assert answer.status_code == 422 and answer.json()["isStale"]


def test_the_same_decision_sent_again_is_answered_alike(client, held):
    data = sent(M0, "confirmed") | {"only": M0}
    first, second = (post(client, held, data, **JSON).json() for _ in range(2))
    assert first == second and len(said()) == 1


def test_a_length_read_off_the_photo_blind_stands_beside_the_first(client, photo, held, rita):
    reading = {"photo": photo, "shows": M0, "shape": "line", "points": [[0, 0], [9, 9]],
               "budget": [], "uncertainty": 0.0005}
    scale = photo.scales.create(points=[[0, 0], [9, 0]], lengths=[0.01], author=held.contributor)
    PhotoReading.objects.create(**reading, scale=scale, value=0.05, author=held.contributor)
    PhotoReading.objects.create(**reading, scale=scale, value=0.0507, author=rita, blind=True)
    post(client, held, sent(M0, "remeasured") | {"only": M0}, **JSON)
    word = ReviewDecision.objects.get()
    assert (word.second_value, word.agrees) == (0.0507, True)


@pytest.mark.parametrize(("who", "status"), [
    ("rolf", 404), ("alice", 403), ("mona", 403), ("ada", 403), ("", 302)])
def test_only_who_holds_the_review_decides(client, held, request, who, status):
    client.logout()
    if who:
        client.force_login(request.getfixturevalue(who))
    assert post(client, held, sent(M0, "confirmed")).status_code == status
    assert said() == []
