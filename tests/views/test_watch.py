"""The button that watches, and the list of what is watched."""
import pytest
from django.utils import timezone

from teardowns.models import BoardFamily, Part, Unit, Watch
from tests.published import published

pytestmark = pytest.mark.django_db


@pytest.fixture
def things(unit, alice, bob, client):
    published(unit)
    client.force_login(bob)
    return {"unit": unit, "part": Part.objects.create(marking="QX123", curator=alice,
                                                      accepted_at=timezone.now()),
            "family": BoardFamily.objects.create(name="Board A", slug="board-a", curator=alice)}


def change(client, kind, thing, to="on"):
    return client.post("/watches/change/", {"kind": kind, "to": to,
                                            "key": getattr(thing, "slug", thing.pk)})


@pytest.mark.parametrize("kind", ["unit", "part", "family"])
def test_a_thing_is_watched_and_no_longer(client, things, kind):
    thing = things[kind]
    assert change(client, kind, thing).url == thing.get_absolute_url()
    assert "Stop watching" in client.get(_discussion(kind, thing)).content.decode()
    change(client, kind, thing, "off")
    assert not Watch.objects.exists()
    assert ">Watch</button>" in client.get(_discussion(kind, thing)).content.decode()


def _discussion(kind, thing):
    return f"{thing.get_absolute_url()}discussion/"


def test_the_list_names_them_and_lets_go(client, things):
    for kind, thing in things.items():
        change(client, kind, thing)
    html = client.get("/watches/").content.decode()
    for words in ("3 watched", "Veltrice VQ-45", "QX123", "Board A"):
        assert words in html
    client.post("/watches/change/", {"to": "off", "back": "list", "key": Watch.objects.first().pk})
    assert Watch.objects.count() == 2


def test_what_is_out_of_sight_is_not_named_and_can_be_let_go(client, things):
    change(client, "unit", things["unit"])
    client.get("/watches/")                              # and with it the message that names it
    Unit.objects.update(quarantined_at=timezone.now())
    html = client.get("/watches/").content.decode()
    assert "out of sight" in html and "Veltrice" not in html
    client.post("/watches/change/", {"to": "off", "back": "list", "key": Watch.objects.get().pk})
    assert not Watch.objects.exists()


def test_nobody_ends_anothers_watch(client, things, rita):
    change(client, "unit", things["unit"])
    client.force_login(rita)
    client.post("/watches/change/", {"to": "off", "back": "list", "key": Watch.objects.get().pk})
    assert Watch.objects.exists()


@pytest.mark.parametrize("typed", [
    {"kind": "unit", "key": "999"}, {"kind": "user", "key": "1"}, {"kind": "part", "key": "x"},
    {"kind": "family", "key": "x"}, {}])
def test_what_is_not_there_is_not_found(client, things, typed):
    assert client.post("/watches/change/", typed | {"to": "on"}).status_code == 404


def test_a_draft_of_somebody_else_is_not_watched(client, things, alice):
    draft = Unit.objects.create(contributor=alice, title="Secret")
    assert change(client, "unit", draft).status_code == 404 and not Watch.objects.exists()
