"""What goes in comes out again, by whom it came in, and what is refused."""
import pytest
from django.contrib.auth import get_user_model
from hypothesis import HealthCheck, given, settings

from core.accounts.models import Role
from teardowns.exchange.digest import digest
from teardowns.exchange.document import DocumentError, read_document, write_document
from teardowns.models import EVIDENCE, Measurement, Part, PartLimit, Unit
from teardowns.services.export_unit import unit_document
from teardowns.services.import_unit import import_unit
from tests.exchange.strategies import documents
from tests.exchange.whole_document import whole_document

pytestmark = pytest.mark.django_db


@pytest.fixture
def alice(db):
    return get_user_model().objects.create(username="alice")


@pytest.fixture
def mona(db):
    return get_user_model().objects.create(username="mona", role=Role.MODERATOR)


def imported(document, contributor):
    return import_unit(document, contributor, document["unit"].get("status", "draft"))


def test_every_field_survives_import_and_export(alice):
    # Replies are verified anew, and terms agreed to anew, or not here.
    document = read_document(whole_document()) | {"replies": [], "licences": []}
    again = unit_document(Unit.objects.get(pk=imported(document, alice).pk))
    assert again == document
    assert write_document(again) == write_document(document)


@settings(max_examples=40, deadline=None,
          suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow])
@given(drawn=documents())
def test_any_sound_document_survives_import_and_export(alice, drawn):
    Unit.objects.all().delete()
    Part.objects.all().delete()
    drawn["unit"]["status"] = "in_review"
    document = read_document(drawn)
    again = unit_document(Unit.objects.get(pk=imported(document, alice).pk))
    document["unit"]["uid"] = again["unit"]["uid"]
    assert write_document(again) == write_document(document)
    assert digest(again) == digest(document)


def test_every_row_has_a_history_by_its_contributor(alice):
    unit = imported(whole_document(), alice)
    for model in (Unit, Part, PartLimit, *EVIDENCE):
        assert model.history.count() == model.objects.count() > 0, model
        assert set(model.history.values_list("history_user", flat=True)) == {alice.pk}, model
    assert set(Measurement.objects.values_list("author", "unit")) == {(alice.pk, unit.pk)}


def test_a_file_cannot_publish_or_confirm_itself(alice):
    unit = import_unit(whole_document(), alice)
    assert unit.status == "draft"
    assert set(unit.measurements.values_list("review_state", flat=True)) == {"open"}


def test_no_document_makes_itself_public(alice):
    unit = import_unit(whole_document(), alice, "published")
    assert not unit.is_public and not Unit.objects.published().exists()


def test_a_unit_that_is_there_already_is_refused(alice):
    import_unit(whole_document(), alice)
    with pytest.raises(DocumentError, match="unit.uid: .* in the database already; remove uid"):
        import_unit(whole_document(), alice)


def test_without_uid_a_copy_is_made_with_the_same_parts(alice):
    document = whole_document()
    import_unit(document, alice)
    del document["unit"]["uid"]
    import_unit(document, alice)
    assert (Unit.objects.count(), Part.objects.count(), PartLimit.objects.count()) == (2, 1, 1)


def test_a_bad_document_leaves_nothing_behind(alice):
    document = whole_document()
    document["measurements"][0]["value"] = "12 W"
    with pytest.raises(DocumentError, match=r"measurements\[0\].value"):
        import_unit(document, alice)
    assert not Unit.objects.exists()


def second_document(**limit):
    document = whole_document()
    del document["unit"]["uid"]
    document["parts"][0]["limits"][0] |= limit
    return document


def test_a_limit_that_contradicts_the_library_is_refused_whole(alice):
    import_unit(whole_document(), alice)
    with pytest.raises(DocumentError, match="gives 12 for controller_power_wide .* document 4"):
        import_unit(second_document(value=4.0), alice)
    assert Unit.objects.count() == 1


def test_a_contributor_cannot_add_a_limit_to_a_part_that_others_cite(alice):
    import_unit(whole_document(), alice)
    with pytest.raises(DocumentError, match="ask a moderator"):
        import_unit(second_document(citation="another sheet", value=4.0), alice)


def test_a_moderator_adds_a_limit_to_the_library(alice, mona):
    import_unit(whole_document(), alice)
    import_unit(second_document(citation="another sheet", value=4.0), mona)
    assert sorted(PartLimit.objects.values_list("value", flat=True)) == [4.0, 12.0]
