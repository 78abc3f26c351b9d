"""`manage.py export_units`: one file a unit, which can be imported again."""
import io

import pytest
from django.contrib.auth import get_user_model
from django.core.management import CommandError, call_command

from teardowns.exchange.document import read_document
from teardowns.services.import_unit import import_unit
from tests.exchange.whole_document import WHOLE, whole_document

pytestmark = pytest.mark.django_db


@pytest.fixture
def units():
    alice = get_user_model().objects.create(username="alice")
    copy = whole_document()
    del copy["unit"]["uid"]
    return [import_unit(WHOLE, alice), import_unit(copy, alice)]


def export(to, *ids):
    out = io.StringIO()
    call_command("export_units", *map(str, ids), to=to, stdout=out)
    return sorted(path.name for path in to.iterdir())


def test_all_units_are_written_and_can_be_read(units, tmp_path):
    assert export(tmp_path / "out") == [f"unit-{unit.pk}.json" for unit in units]
    text = (tmp_path / "out" / f"unit-{units[0].pk}.json").read_bytes()
    assert read_document(text)["unit"]["uid"] == WHOLE["unit"]["uid"]


def test_only_the_named_units_are_written(units, tmp_path):
    assert export(tmp_path, units[1].pk) == [f"unit-{units[1].pk}.json"]


def test_a_missing_unit_is_named_and_nothing_is_written(units, tmp_path):
    with pytest.raises(CommandError, match="There is no unit 999999"):
        export(tmp_path, units[0].pk, 999999)
    assert not list(tmp_path.iterdir())
