"""`manage.py import_units`: all files become drafts, or none does."""
import io
import json

import pytest
from django.contrib.auth import get_user_model
from django.core.management import CommandError, call_command

from teardowns.models import Assessment, Unit
from tests.exchange.whole_document import WHOLE, whole_document

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def alice(db):
    return get_user_model().objects.create(username="alice")


def written(tmp_path, name, document):
    path = tmp_path / name
    path.write_text(json.dumps(document), encoding="utf-8")
    return str(path)


def without_uid(**unit):
    document = whole_document()
    del document["unit"]["uid"]
    document["unit"] |= unit
    return document


def run(*arguments, **options):
    out = io.StringIO()
    call_command(*arguments, stdout=out, **options)
    return out.getvalue()


def test_files_become_assessed_drafts_of_the_contributor(tmp_path, alice):
    files = [written(tmp_path, "a.json", WHOLE), written(tmp_path, "b.json", without_uid())]
    text = run("import_units", *files, "--as", "alice")
    assert set(Unit.objects.values_list("contributor", "status")) == {(alice.pk, "draft")}
    assert Assessment.objects.count() == Unit.objects.count() == len(text.splitlines()) == 2


def test_one_file_that_cannot_be_taken_keeps_all_out(tmp_path):
    files = [written(tmp_path, "a.json", without_uid()), written(tmp_path, "b.json", WHOLE),
             written(tmp_path, "c.json", WHOLE)]
    with pytest.raises(CommandError, match="c.json: .*\n.*in the database already") as refused:
        run("import_units", *files, "--as", "alice")
    assert refused.value.returncode == 2
    assert not Unit.objects.exists()


def test_an_unknown_account_is_named(tmp_path):
    with pytest.raises(CommandError, match='no account "nobody"'):
        run("import_units", written(tmp_path, "a.json", WHOLE), "--as", "nobody")
