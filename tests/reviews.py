"""Work under review: a unit with a few rows, handed in, and reviewers who took it on."""
from django.utils import timezone

from teardowns.models import Measurement, Status, Unit
from teardowns.services.claim_review import claim_review
from teardowns.services.decide_evidence import decide_evidence


def handed_in(unit, *rows, status=Status.SUBMITTED):
    """The unit, submitted, with measurements: {"quantity": …, "value": …} or by key."""
    for at, row in enumerate(rows or ({},)):
        Measurement.objects.create(**{
            "unit": unit, "key": f"m{at}", "quantity": "mass_total", "value": 0.05,
            "uncertainty": 0.001, "uncertainty_kind": "interval", "author": unit.contributor,
        } | row)
    Unit.objects.filter(pk=unit.pk).update(status=status, submitted_at=timezone.now())
    unit.refresh_from_db()
    return unit


def take_on(reviewer, unit):
    return claim_review(reviewer=reviewer, unit_pk=unit.pk, no_conflict=True)


def decide(reviewer, unit, decision="confirmed", ref="measurement/m0", version=1, **more):
    return decide_evidence(reviewer=reviewer, unit_pk=unit.pk, ref=ref, version=version,
                           decision=decision, **more)
