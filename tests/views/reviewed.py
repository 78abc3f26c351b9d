"""A rich unit of the demo, handed in, for tests of the review's pages."""
import json
from pathlib import Path

from django.conf import settings

from teardowns.drawing.files import drawn_files
from teardowns.exchange.document import read_document
from teardowns.models import EVIDENCE, Status, Unit
from teardowns.services.assess_units import assess_units
from teardowns.services.draw_demo_photos import keep_drawings
from teardowns.services.import_unit import import_unit

RICH = Path(settings.BASE_DIR) / "fixtures/units/20-hurdlop-turbo45.json"


def rich_unit(contributor, pictures=False):
    """Submitted, with nothing reviewed yet."""
    document = json.loads(RICH.read_text("utf-8"))
    unit = import_unit(read_document(document), contributor, Status.SUBMITTED)
    Unit.objects.filter(pk=unit.pk).update(submitted_at=unit.created_at)
    for model in EVIDENCE:
        model.objects.filter(unit=unit).update(review_state="open")
    assess_units([unit])
    if pictures:
        keep_drawings(unit, drawn_files(document))
    unit.refresh_from_db()
    return unit
