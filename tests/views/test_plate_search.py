"""A unit found by what is printed on it."""
import pytest

from teardowns.forms.plate_search_form import MOST_TEXT
from teardowns.models import PrintedText
from tests.published import published

pytestmark = pytest.mark.django_db
ADDRESS = "/units/by-plate/"


@pytest.fixture
def public(unit):
    unit.maker, unit.model = "Veltrice", "VQ-45"
    unit.save()
    PrintedText.objects.create(unit=unit, key="plate", source="plate", how="read_off",
                               author=unit.contributor, text="VELTRICE VQ-45\nOUTPUT: 5V 3A")
    published(unit)
    return unit


def page(client, **asked):
    return client.get(ADDRESS, asked)


def test_everybody_is_asked_for_a_plate(client):
    answer = client.get(ADDRESS)
    assert answer.status_code == 200 and "Near units" not in answer.content.decode()


def test_the_unit_with_the_same_plate_is_shown_and_why(client, public):
    answer = page(client, text="Veltrice VQ 45\r\nOutput: 5V 3A")
    row, = answer.context["rows"]
    assert row.unit.pk == public.pk
    assert row.why == ("the same model: VQ-45", "the same maker: Veltrice")
    html = answer.content.decode()
    assert f'href="/units/{public.pk}/"' in html and f"/compare/?units={public.pk}" in html
    assert "5\u202fV" in html               # the rating that was read out of the text


def test_a_misread_number_is_offered_as_the_digits_that_it_looks_like(client, public):
    answer = page(client, text="OUTPUT: 5V 2.IA")
    assert answer.context["corrected"] == "OUTPUT: 5V 2.1A"
    assert "text=OUTPUT%3A+5V+2.1A" in answer.content.decode()
    assert page(client, text="OUTPUT: 5V 2.1A").context["corrected"] == ""


@pytest.mark.parametrize("asked", [{"text": "x" * (MOST_TEXT + 1)}, {"text": "a\x00b"},
                                   {"text": "", "marking": ""}, {"marking": "y" * 61}])
def test_what_cannot_be_looked_up_is_said_and_stays_in_the_box(client, asked):
    answer = page(client, **asked)
    assert answer.status_code == 200 and answer.context["form"].errors
    for text in asked.values():
        assert text.replace("\x00", "") in answer.content.decode().replace("\x00", "")


@pytest.mark.parametrize("text", ["💥", "(((", "<script>alert(1)</script>", "' OR 1=1 --",
                                  "\x1b[0m", "5V " * 300, "\n" * 500 + "5V"])
def test_any_other_text_is_answered(client, text):
    answer = page(client, text=text)
    assert answer.status_code == 200 and answer.context["rows"] == []
    assert "<script>alert" not in answer.content.decode()


def test_the_page_takes_few_queries(client, public, django_assert_max_num_queries):
    with django_assert_max_num_queries(8):
        page(client, text="Veltrice VQ-45 5V 3A", marking="pz")


def test_it_is_asked_for_and_never_sent(client):
    assert client.post(ADDRESS, {"text": "5V"}).status_code == 405
