"""A public unit of the demo, with nothing but what its document says."""
import json
from pathlib import Path

from django.conf import settings

from teardowns.exchange.document import read_document
from teardowns.models import Status
from teardowns.services.import_unit import import_unit
from tests.cast import person
from tests.published import published

POOR = Path(settings.BASE_DIR) / "fixtures/units"


def public_unit(name="20-hurdlop-turbo45.json", contributor="alice"):
    document = read_document(json.loads((POOR / name).read_text("utf-8")))
    unit = import_unit(document, person(contributor), Status.IN_REVIEW)
    published(unit)
    unit.refresh_from_db()
    return unit
