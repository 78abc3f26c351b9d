"""A declined correction leaves what is public as it was, and tells its author why."""
import pytest

from teardowns.models import Decision, Measurement, Publication, Unit
from teardowns.services.decline_correction import decline_correction
from teardowns.services.open_correction import open_correction
from tests.published import published

pytestmark = pytest.mark.django_db


@pytest.fixture
def corrected(unit, bob):
    """Bob's correction of Alice's public record, handed in."""
    unit.measurements.create(key="mass", quantity="mass_total", value=0.05, how="measured",
                             author=unit.contributor)
    published(unit)
    open_correction(author=bob, unit_pk=unit.pk, reason="The mass is wrong.")
    Measurement.objects.update(value=0.08)
    unit.corrections.update(status="submitted")
    return unit


def test_what_stood_before_stands_and_its_author_reads_why(corrected, bob, mona):
    statement = decline_correction(moderator=mona, unit_pk=corrected.pk, code="wrong_reading",
                                   facts="The scale in photo 3 shows 50 g.")
    assert (statement.decision, statement.addressee) == (Decision.DECLINE, bob)
    assert Unit.objects.published().get() == corrected and Publication.objects.count() == 1
    assert Measurement.objects.get().value == 0.05
    assert corrected.corrections.get().outcome == "The scale in photo 3 shows 50 g."
