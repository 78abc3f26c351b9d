"""A moderator opens a family and changes what is said of it; texts of two people both stay."""
from uuid import uuid4

import pytest

from teardowns.models import BoardFamily
from tests.library import family as opened

pytestmark = pytest.mark.django_db
SENT = {"name": "Board HB-12", "description": "One layer.", "evidence_for": "",
        "evidence_against": ""}
EDIT = "/families/board-hb-12/edit/"


def test_a_family_is_opened_once_however_often_it_is_sent(client, mona):
    client.force_login(mona)
    sent = SENT | {"once": str(uuid4())}
    first, second = (client.post("/families/open/", sent) for _ in range(2))
    assert first["Location"] == second["Location"] == "/families/board-hb-12/"
    assert BoardFamily.objects.count() == 1


def test_only_moderators_may(client, bob, rita, ada, mona):
    opened(mona)
    for person in (bob, rita, ada):
        client.force_login(person)
        assert client.get(EDIT).status_code == client.post(EDIT, SENT).status_code == 403


def test_the_form_holds_what_stands_now(client, mona):
    opened(mona)
    client.force_login(mona)
    assert client.get(EDIT).context["form"]["name"].value() == "Board HB-12"
    assert client.get("/families/none/edit/").status_code == 404


def test_bad_input_keeps_what_was_typed(client, mona):
    client.force_login(mona)
    page = client.post("/families/open/", SENT | {"name": " ", "evidence_for": "9/component/q1"})
    assert page.status_code == 200 and "name" in page.context["form"].errors
    assert page.context["form"]["evidence_for"].value() == "9/component/q1"
    page = client.post("/families/open/", SENT | {"evidence_for": "See 9/component/q1."})
    assert "No published unit has 9/component/q1" in page.content.decode()


def test_two_moderators_at_once_lose_neither_text(client, mona):
    opened(mona)
    client.force_login(mona)
    client.post(EDIT, SENT | {"description": "Two layers.", "seen": 1})
    page = client.post(EDIT, SENT | {"description": "Four layers.", "seen": 1})
    text = page.content.decode()
    assert page.status_code == 200 and "Two layers." in text and "Four layers." in text
    client.post(EDIT, SENT | {"description": "Four layers.",
                              "seen": page.context["form"]["seen"].value()})
    assert BoardFamily.objects.get().description == "Four layers."
