"""What rulebooks moved, by rulebook, paged."""
import pytest

from teardowns.models import Assessment, StandingChange, Unit
from teardowns.views import rulebook_changes as view
from tests.corrections import public_unit

PAGE = "/method/changes/"


@pytest.fixture
def unit(alice):
    return public_unit(alice)


def moved(unit, rulebook="4+0a1b2c3d", words=(("5V⎓3A", "supported", "possible"),), levels=()):
    was = unit.publication.standing
    now = Assessment.objects.create(
        unit=unit, rulebook=rulebook, evidence_digest=was.evidence_digest, payload=was.payload)
    return StandingChange.objects.create(
        publication=unit.publication, was=was, now=now, rulebook=rulebook,
        words=[list(one) for one in words], levels=list(levels))


def text_of(client, **query):
    response = client.get(PAGE, query)
    assert response.status_code == 200
    return response.content.decode()


def test_none_so_far(client, db):
    assert "No rulebook has moved a public record so far" in text_of(client)


def test_each_stands_under_its_rulebook_with_both_words(client, unit):
    moved(unit, levels=("", "high"))
    moved(unit, "5+11223344", words=(("5V⎓3A", "possible", "doubtful"),))
    text = text_of(client)
    assert text.index("Edition 5, 11223344") < text.index("Edition 4, 0a1b2c3d")
    assert "“5V⎓3A”" in text and "no level" in text and ">high</td>" in text
    assert text.index(">supported</span>") < text.index(">possible</span></td></tr>")
    assert f'href="{unit.get_absolute_url()}"' in text


@pytest.mark.parametrize("hidden", [{"status": "withdrawn"},
                                    {"quarantined_at": "2026-01-01T00:00Z"}])
def test_what_is_not_public_is_not_told(client, unit, hidden):
    moved(unit)
    Unit.objects.filter(pk=unit.pk).update(**hidden)
    assert unit.title not in text_of(client)


def test_it_is_paged_and_stays_within_twelve_queries(
        client, unit, monkeypatch, django_assert_max_num_queries):
    monkeypatch.setattr(view, "PAGE_SIZE", 2)
    for number in range(5):
        moved(unit, f"{number}+00000000")
    with django_assert_max_num_queries(12):
        text = text_of(client)
    assert "Older changes" in text and "Newer changes" not in text
    assert "Page 3 of 3" in text_of(client, page="3")
    assert "Page 3 of 3" in text_of(client, page="99")


def test_only_reading(client, db):
    assert client.post(PAGE).status_code == 405
