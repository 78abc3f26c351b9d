"""A public unit with every kind of row, and corrections of it, for tests."""
from teardowns.models import Claim, Measurement
from teardowns.services.import_unit import import_unit
from teardowns.services.open_correction import open_correction
from tests.exchange.whole_document import whole_document
from tests.published import confirm_all, published

WHY = "The load test was 13 W: see the log."


GAP = {"key": "gap-2", "path": "clearance", "barrier": "PRI_SEC", "place": "board",
       "value": 2e-4, "uncertainty": 1e-5, "uncertainty_kind": "standard"}     # falls short


def public_unit(alice, gaps=(), **unit):
    """Alice's unit with every kind of row, confirmed and published; more insulation paths."""
    document = whole_document()
    document["unit"] |= unit
    document["insulation"] += gaps
    made = import_unit(document, alice)
    confirm_all(made)
    published(made)
    made.refresh_from_db()
    return made


def corrected(unit, author, reason=WHY):
    correction = open_correction(author=author, unit_pk=unit.pk, reason=reason)
    unit.refresh_from_db()
    return correction


def write(unit, value=13.0):
    """One changed, one removed and one added row, as a bench sheet would leave them."""
    held = Measurement.objects.get(unit=unit, key="held")
    held.value, held.version, held.review_state = value, held.version + 1, "open"
    held.save()
    Claim.objects.get(unit=unit, key="class-2").delete()
    Measurement.objects.create(unit=unit, key="volts", quantity="case_height", value=0.05,
                               author=unit.corrections.get(closed_at=None).author)
