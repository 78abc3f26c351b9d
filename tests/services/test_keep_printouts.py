"""Files of records on paper: handed out while wanted, forgotten after."""
import os
from datetime import timedelta

import pytest
from django.core.files.base import ContentFile
from django.core.files.storage import storages
from django.utils import timezone

from teardowns.models import Printout
from teardowns.services.keep_printouts import open_printout, sweep_printouts

pytestmark = pytest.mark.django_db
TODAY = timezone.now()


@pytest.fixture
def made():
    printout = Printout.objects.create(digest="ab" * 32, versions=[[1, 1]], state="made",
                                       asked_at=TODAY, used_on=TODAY - timedelta(days=29))
    storages["printouts"].save(printout.path, ContentFile(b"%PDF"))
    return printout


def test_one_that_is_fetched_is_kept_on(made):
    with open_printout(made.digest) as file:
        assert file.read() == b"%PDF"
    made.refresh_from_db()
    assert made.used_on == TODAY.date()


def test_one_whose_file_is_gone_can_be_asked_for_anew(made):
    storages["printouts"].delete(made.path)
    assert open_printout(made.digest) is None
    made.refresh_from_db()
    assert made.state == "failed"


def test_one_that_is_not_made_is_not_handed_out(made):
    Printout.objects.update(state="making")
    assert open_printout(made.digest) is None


def test_after_a_month_it_is_forgotten_with_its_file_and_not_before(made):
    assert sweep_printouts() == 0
    Printout.objects.update(used_on=TODAY - timedelta(days=31))
    assert sweep_printouts() == 1
    assert not storages["printouts"].exists(made.path)


def test_preview_pictures_go_by_their_age():
    store = storages["printouts"]
    for name in ("cards/old.png", "cards/new.png"):
        store.save(name, ContentFile(b"x"))
    os.utime(store.path("cards/old.png"), (0, 0))
    assert sweep_printouts() == 1
    assert store.exists("cards/new.png") and not store.exists("cards/old.png")
