import json
from pathlib import Path

import pytest
from django.conf import settings

from teardowns.forms.sections import SECTIONS
from teardowns.models import Unit
from teardowns.services.import_unit import import_unit
from tests.forms.sent import checked

DEMO = sorted(Path(settings.BASE_DIR, "fixtures", "units").glob("*.json"))


@pytest.mark.django_db
@pytest.mark.parametrize("path", DEMO, ids=lambda path: path.stem)
def test_a_unit_brought_in_from_a_file_passes_through_the_sheet_unchanged(path, alice):
    unit = import_unit(json.loads(path.read_text()), alice, "draft")
    unit = Unit.objects.get(pk=unit.pk)
    for section in SECTIONS:
        form = checked(unit, section.slug, {})
        assert form.errors() == []
        assert form.row_changes() == []
