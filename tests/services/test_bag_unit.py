import zipfile
from pathlib import Path

import bagit
import pytest

from teardowns.bulk.bag import read_bag
from teardowns.models import Publication
from teardowns.services.bag_unit import bag_name, bag_of
from teardowns.services.hide_now import hide_now
from tests.handing_in import with_plate
from tests.published import confirm_all, published

pytestmark = pytest.mark.django_db


def unpacked(publication, folder):
    publication = Publication.objects.select_related("standing", "unit").get(pk=publication.pk)
    with bag_of(publication) as file:
        zipfile.ZipFile(file).extractall(folder)
    return Path(folder) / bag_name(publication)


def test_it_holds_the_record_and_its_pictures_and_judges_alike(unit, photo, alice, tmp_path):
    with_plate(unit, alice)
    confirm_all(unit)
    publication = published(unit)
    bag = unpacked(publication, tmp_path)
    bagit.Bag(str(bag)).validate()
    assert (bag / f"data/photos/{photo.key}.webp").read_bytes()[:4] == b"RIFF"
    reading = read_bag(bag, tmp_path)
    assert reading.same_evidence and reading.moved == []
    assert reading.digest == publication.standing.evidence_digest


def test_a_picture_that_is_hidden_is_not_in_it(unit, photo, mona, tmp_path):
    publication = published(unit)
    hide_now(by=mona, about=f"photo/{photo.pk}", reason="A face.")
    assert not (unpacked(publication, tmp_path) / "data/photos").exists()
