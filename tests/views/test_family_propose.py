from uuid import uuid4

import pytest

from teardowns.models import BoardFamilyMember
from tests.library import family as opened
from tests.published import published

pytestmark = pytest.mark.django_db
ADDRESS = "/families/board-hb-12/propose/"


@pytest.fixture(autouse=True)
def family(mona):
    return opened(mona)


def test_a_published_unit_is_proposed_once(client, bob, unit):
    published(unit)
    client.force_login(bob)
    sent = {"unit": unit.pk, "why": "The same board number.", "once": str(uuid4())}
    first, second = (client.post(ADDRESS, sent) for _ in range(2))
    made = BoardFamilyMember.objects.get()
    assert first["Location"] == second["Location"] == made.get_absolute_url()
    assert "waits for a moderator" in client.get(made.get_absolute_url()).content.decode()


@pytest.mark.parametrize(("sent", "words"), [
    ({"unit": "x", "why": "So."}, "Write the number alone"), ({"unit": 1, "why": " "}, "in common"),
    ({"unit": 12345, "why": "So."}, "Only a published unit"),
    ({"unit": 1, "why": "As 9/component/q1."}, "No published unit has 9/component/q1")])
def test_bad_input_is_told_and_kept(client, bob, sent, words):
    client.force_login(bob)
    page = client.post(ADDRESS, sent)
    assert page.status_code == 200 and words in page.content.decode()
    assert page.context["form"]["why"].value() == sent["why"]


def test_the_unit_s_number_is_filled_in_from_the_address(client, bob):
    client.force_login(bob)
    assert client.get(f"{ADDRESS}?unit=12").context["form"]["unit"].value() == "12"


def test_a_reader_signs_in_first(client, ada):
    assert client.get(ADDRESS).status_code == 302
    client.force_login(ada)
    assert client.get(ADDRESS).status_code == 403
