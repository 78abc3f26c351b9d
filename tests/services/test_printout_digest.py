"""What makes another document of a record, and what does not."""
import pytest

from core.accounts.models import User
from teardowns.models import Photo, PhotoDerivative
from teardowns.services.printout_digest import printout_digest, sources_digest
from teardowns.services.public_versions import public_versions
from tests.published import published

pytestmark = pytest.mark.django_db
FONTS = ["a.ttf 1"]


@pytest.fixture
def public(unit):
    published(unit)
    return unit


def digest(unit, fonts=FONTS):
    return printout_digest(public_versions([(unit.pk, None)]), fonts)


def test_the_same_record_has_the_same_one(public):
    assert digest(public) == digest(public)


def test_another_set_of_fonts_makes_another_document(public):
    assert digest(public) != digest(public, ["a.ttf 2"])


def test_another_version_is_another_document(public):
    first = digest(public)
    published(public)
    assert digest(public) != first


def test_the_contributors_name_stands_in_it(public):
    first = digest(public)
    User.objects.filter(pk=public.contributor_id).update(username="alma")
    assert digest(public) != first


def test_a_photo_that_is_taken_down_is_in_no_document_made_before(public):
    photo = Photo.objects.create(unit=public, key="a", sha256="aa" * 32, author=public.contributor)
    PhotoDerivative.objects.create(photo=photo, width=10, height=10, media_type="image/webp",
                                   path="a/b.webp")
    with_it = digest(public)
    Photo.objects.filter(pk=photo.pk).update(taken_down_at="2026-01-01T00:00:00Z")
    assert digest(public) != with_it


@pytest.mark.parametrize("source", [
    "engine/safety_words.py", "reading/printing.py", "writing/render.py", "presenting/wording.py",
    "printouts/document.py", "typesetting/report.typ"])
def test_another_wording_or_way_to_print_makes_another_document(settings, tmp_path, source):
    """Sentences, numbers and people's own words stand on paper: whatever writes them counts."""
    settings.BASE_DIR, file = tmp_path, tmp_path / "teardowns" / source
    file.parent.mkdir(parents=True)
    made = []
    for text in ("a", "b"):
        file.write_text(text)
        made.append(sources_digest.__wrapped__())
    assert made[0] != made[1]


def test_it_asks_four_queries_for_one_and_for_many(public, django_assert_num_queries):
    versions = public_versions([(public.pk, None), (public.pk, 1)])
    with django_assert_num_queries(4):
        printout_digest(versions, FONTS)
