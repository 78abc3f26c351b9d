"""Every change of evidence leaves its author and what stood before."""
import pytest

from teardowns.models import EVIDENCE, Measurement, Unit

pytestmark = pytest.mark.django_db


@pytest.mark.parametrize("noun", [*EVIDENCE, Unit], ids=lambda noun: noun.__name__)
def test_every_kind_of_evidence_has_a_history(noun):
    assert hasattr(noun, "history") and hasattr(noun, "version")


def test_a_change_keeps_what_stood_before(django_user_model):
    alice = django_user_model.objects.create_user("alice")
    unit = Unit.objects.create(contributor=alice, title="A wall charger")
    mass = Measurement.objects.create(
        unit=unit, author=alice, key="mass", quantity="mass_total", value=0.05)
    mass.value = 0.06
    mass.save()
    assert [row.value for row in mass.history.order_by("history_id")] == [0.05, 0.06]
