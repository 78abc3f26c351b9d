"""`manage.py export_units`: one file a unit, which can be imported again."""
import io
import json

import pytest
from django.contrib.auth import get_user_model
from django.core.management import CommandError, call_command
from django.utils import timezone

from teardowns.exchange.document import read_document
from teardowns.licence import IN_FORCE, MEASUREMENTS, WORKS
from teardowns.models import ContributionLicence, Reply, ReplyState, Submission
from teardowns.models.replies import ReplyVersion
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


@pytest.fixture
def answered(units, bob, mona):
    """The first unit, with terms that were agreed to and a reply that was verified."""
    unit, now = units[0], timezone.now()
    submission = Submission.objects.create(unit=unit, author=unit.contributor)
    ContributionLicence.objects.create(
        submission=submission, unit=unit, author=unit.contributor, measurements=MEASUREMENTS,
        works=WORKS, edition=IN_FORCE.number, text_sha256=IN_FORCE.sha256, own_rights=True,
        third_party="none")
    reply = Reply.objects.create(unit=unit, author_name="Veltrice Ltd", entered_by=bob,
                                 state=ReplyState.VERIFIED)
    ReplyVersion.objects.create(reply=reply, number=1, text="We changed the fuse.", received_at=now,
                                state=ReplyState.VERIFIED, decided_by=mona, decided_at=now)
    return unit


def test_replies_and_terms_stand_beside_the_evidence(units, answered, tmp_path):
    export(tmp_path)
    with_both, without = (json.loads((tmp_path / f"unit-{unit.pk}.json").read_text("utf-8"))
                          for unit in units)
    assert [one["text"] for one in with_both["replies"]] == ["We changed the fuse."]
    assert [one["works"] for one in with_both["licences"]] == [WORKS]
    assert "replies" not in without and "licences" not in without
    read_document(with_both)


def test_a_folder_that_cannot_be_written_is_named(units, tmp_path):
    (tmp_path / "taken").touch()
    with pytest.raises(CommandError, match="taken: cannot be written .File exists."):
        export(tmp_path / "taken")
