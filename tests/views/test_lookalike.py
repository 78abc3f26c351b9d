"""Two units that look alike: from the queue to a proposal, or to two boards."""
from uuid import uuid4

import pytest

from teardowns.models import BoardFamily, BoardFamilyMember, CandidateState, Lookalike
from teardowns.services.find_likenesses import find_likenesses
from teardowns.services.index_likeness import index_likeness
from tests.likenesses import board, strangers

pytestmark = pytest.mark.django_db
QUEUE = "/moderation/library/"


@pytest.fixture
def pair(alice):
    made = [board(alice, "One"), board(alice, "Two", withdrawn=("optocoupler",)),
            *strangers(alice)]
    index_likeness([unit.pk for unit in made])
    find_likenesses()
    return Lookalike.objects.get()


def address(pair):
    return f"{QUEUE}alike/{pair.pk}/"


def test_the_queue_leads_to_the_pair_and_its_evidence(client, pair, mona):
    client.force_login(mona)
    assert f'href="{address(pair)}"' in client.get(QUEUE).content.decode()
    page = client.get(address(pair)).content.decode()
    assert "Primary controller marked UWK-12 in both." in page
    assert f'href="/units/{pair.first_id}/#component-primary-controller"' in page
    assert "Nothing, as far as both were looked at." in page


def test_the_queue_stays_within_its_queries(client, pair, mona, django_assert_max_num_queries):
    client.force_login(mona)
    with django_assert_max_num_queries(9):
        client.get(QUEUE)


def test_others_do_not_see_it(client, pair, alice, rita, ada):
    assert client.get(address(pair)).status_code == 302
    for person in (alice, rita, ada):
        client.force_login(person)
        assert client.get(address(pair)).status_code == 403


def test_a_pair_that_is_gone_is_not_there(client, mona):
    client.force_login(mona)
    assert client.get(f"{QUEUE}alike/77/").status_code == 404


def filled_in(client, asked):
    given = client.get(asked).context["form"].initial
    return {name: value for name, value in given.items() if value is not None}


def test_a_family_is_opened_for_the_pair_and_each_is_proposed(client, pair, mona, milo):
    client.force_login(mona)
    opening = f"/families/open/?alike={pair.pk}"
    given = filled_in(client, opening)
    assert "look alike" in given["evidence_for"]
    client.post(opening, {"name": "Board HB-12", **given, "once": str(uuid4())})
    family = BoardFamily.objects.get()
    proposing = f"/families/{family.slug}/propose/?unit={pair.first_id}&alike={pair.pk}"
    assert proposing.replace("&", "&amp;") in client.get(address(pair)).content.decode()
    client.post(proposing, filled_in(client, proposing) | {"once": str(uuid4())})
    member = BoardFamilyMember.objects.get()
    assert member.similarity == pytest.approx(pair.score) and member.proposer == mona
    page = client.get(member.get_absolute_url()).content.decode()
    assert f"likeness {pair.score:.2f} of 1 when it was proposed" in page


def test_two_boards_need_a_reason_and_what_was_typed_is_kept(client, pair, mona):
    client.force_login(mona)
    page = client.post(address(pair), {"reason": " "})
    assert page.status_code == 200 and "Say what differs" in page.content.decode()
    client.post(address(pair), {"reason": "Two layouts.", "once": str(uuid4())})
    pair.refresh_from_db()
    assert pair.state == CandidateState.APART
    assert "No pair waits." in client.get(QUEUE).content.decode()


@pytest.mark.parametrize("asked", ["x", "99", "1" * 30, "٣"])
def test_a_pair_that_is_not_there_fills_in_nothing(client, mona, asked):
    client.force_login(mona)
    assert client.get(f"/families/open/?alike={asked}").context["form"].initial["seen"] is None
