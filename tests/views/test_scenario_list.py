"""Every scenario with its steps, for anyone; a moderator puts a set in force, in sight of all."""
import pytest
from django.urls import reverse

from teardowns.engine.scenarios import SCENARIOS
from teardowns.services.edit_scenarios import edit_scenario, scenarios_in_force
from teardowns.views import scenario_list

pytestmark = pytest.mark.django_db
ADDRESS = "/method/scenarios/"
OWN = "the rulebook’s own"


@pytest.fixture
def changed(mona):
    return edit_scenario(mona, scenarios_in_force(), "loose_metal", {"moves": "1/5"},
                         "Seen to move.")


def page(client, query=""):
    return client.get(f"{ADDRESS}{query}").content.decode()


def force(client, number, instead_of=OWN, reason="Two of us agreed."):
    return client.post(f"{ADDRESS}?set={number}", {"reason": reason, "instead_of": instead_of})


def test_it_shows_every_scenario_step_and_trigger_to_anyone(client):
    shown = page(client)
    assert all(scenario.title in shown for scenario in SCENARIOS)
    assert "this rulebook" in shown and "Change its steps" not in shown
    assert "no act of an authority" in shown and "Triggered when" in shown


def test_a_set_that_is_not_in_force_says_so_and_what_it_would_change(client, changed):
    shown = page(client, "?set=1")
    assert "not in force" in shown and "1/50 → 1/5" in shown and "high → serious" in shown
    assert "Put this set in force" not in shown
    assert "Seen to move." in page(client) and "1/50" in page(client)


def test_a_moderator_puts_it_in_force_and_everybody_reads_who_and_why(client, mona, changed):
    client.force_login(mona)
    assert force(client, 1).url == reverse("scenario_list")
    client.logout()
    shown = page(client)
    assert "Two of us agreed." in shown and f"instead of {OWN}" in shown
    assert scenarios_in_force().number == 1


def test_every_unit_is_then_queued_to_be_assessed_anew(
        client, mona, changed, monkeypatch, django_capture_on_commit_callbacks):
    queued = []
    monkeypatch.setattr(scenario_list, "async_task", queued.append)
    client.force_login(mona)
    with django_capture_on_commit_callbacks(execute=True):
        force(client, 1)
    assert queued == ["teardowns.jobs.reassess_all"]


def test_the_rulebooks_own_can_be_put_back(client, mona, changed):
    client.force_login(mona)
    force(client, 1)
    assert "serious → high" in page(client, "?set=0")
    force(client, 0, changed.version, "It was a mistake.")
    assert scenarios_in_force().number == 0 and "It was a mistake." in page(client)


@pytest.mark.parametrize("typed, said", [
    ({"reason": " "}, "Write why this set should count"),
    ({"instead_of": "risk9-00000000"}, "Meanwhile the rulebook’s own was put in force")])
def test_what_keeps_it_from_counting_is_said_and_what_was_typed_is_kept(
        client, mona, changed, typed, said):
    client.force_login(mona)
    shown = force(client, 1, **typed).content.decode()
    assert said in shown and typed.get("reason", "Two of us agreed.") in shown
    assert scenarios_in_force().number == 0


def test_a_reviewer_may_not_put_it_in_force(client, rita, changed):
    client.force_login(rita)
    assert force(client, 1).status_code == 403


@pytest.mark.parametrize("number", ["9", "9" * 30, "-1", "x", "²", ""])
def test_a_set_that_is_not_there_is_not_found(client, number):
    assert client.get(f"{ADDRESS}?set={number}").status_code == 404


def test_it_asks_little(client, mona, changed, django_assert_max_num_queries):
    client.force_login(mona)
    with django_assert_max_num_queries(7):
        page(client, "?set=1")
