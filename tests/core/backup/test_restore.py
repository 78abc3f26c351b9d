"""The whole way by its commands, from a site that is being written to into an empty one."""
import json
import shutil
import threading

import pytest

from core.backup.bags import bags
from tests.core.backup.site import TABLES, drop_database, new_site

FILL = """
from django.core.files.base import ContentFile
from django.core.files.storage import storages
from django.db import transaction
from core.accounts.models import User
from core.audit.record import record
for name in ("alice", "bob"):
    User.objects.create_user(name, f"{name}@example.org", "a long enough password")
with transaction.atomic():
    record(None, "scenarios_kept")
storages["originals"].save("ab/abc", ContentFile(b"pixels" * 1000))
storages["pictures"].save("cd/cde/400.webp", ContentFile(b"made"))
"""
WRITE = """
from django.db import transaction
from core.audit.record import record
for number in range(200):
    with transaction.atomic():
        record(None, "scenarios_kept", number=number)
"""
LEAVE = """
from core.accounts.models import User
from core.accounts.services.delete_account import delete_account
delete_account(person=User.objects.get(username="bob"))
"""
NAMES = """
from core.accounts.models import User
print(*User.objects.order_by("pk").values_list("username", flat=True))
"""
FILES = """
from django.core.files.storage import storages
print(storages["originals"].open("ab/abc").read() == b"pixels" * 1000,
      storages["pictures"].open("cd/cde/400.webp").read().decode())
"""


@pytest.fixture(scope="module")
def origin(tmp_path_factory, django_db_setup):
    """(site, folder of backups): two bags, the first made while somebody wrote; then one left."""
    site = new_site(tmp_path_factory.mktemp("origin") / "data")
    folder = tmp_path_factory.mktemp("backups") / "kept"
    site.run(TABLES + FILL)
    writer = threading.Thread(target=site.run, args=[WRITE])
    writer.start()
    first = site.manage("backup", str(folder))
    writer.join()
    site.run(LEAVE)
    second = site.manage("backup", str(folder))
    assert (first[1], second[1]) == (0, 0), first[0] + second[0]
    assert "2 of them new" in first[0] and "0 of them new" in second[0]
    yield site, folder
    drop_database(site)


@pytest.fixture
def elsewhere(tmp_path):
    site = new_site(tmp_path / "elsewhere")
    yield site
    drop_database(site)


def test_a_backup_made_under_load_comes_back_whole_and_what_was_erased_stays_so(origin, elsewhere):
    _, folder = origin
    first = bags(folder)[0]
    said, failed = elsewhere.manage("restore", str(first))
    assert not failed, said
    assert "2 files, each as it was backed up; 1 erasures were repeated" in said
    names = elsewhere.run(NAMES).split()
    assert names[0] == "alice" and "bob" not in names
    assert elsewhere.run(FILES) == "True made"
    witness = json.loads((first / "data/state.json").read_text())["witness"]
    said, failed = elsewhere.manage("check_audit", "--witness", witness)
    assert not failed, said
    said, failed = elsewhere.manage("restore", str(folder))
    assert failed and "The database is not empty" in said


def test_a_damaged_backup_is_named_before_anything_is_written(origin, elsewhere, tmp_path):
    bag = shutil.copytree(bags(origin[1])[-1], tmp_path / "2026-01-01T000000Z")
    with (bag / "data/storages/originals/ab/abc").open("r+b") as file:
        file.write(b"P")
    for command in ("check_backup", "restore"):
        said, failed = elsewhere.manage(command, str(bag))
        assert failed and "data/storages/originals/ab/abc is damaged" in said
    assert [path.name for path in elsewhere.folder.iterdir() if path.is_dir()] in ([], ["incoming"])
    said, failed = elsewhere.manage("doctor", "migrations")
    assert failed and "migrations are not applied" in said


def test_a_key_that_is_not_the_backups_is_said(origin, elsewhere):
    said, failed = elsewhere.manage("restore", str(origin[1]), SECRET_KEY="another" * 9)
    assert not failed and "SECRET_KEY is not the one" in said


def test_a_storage_that_is_not_empty_is_named(origin, elsewhere):
    (elsewhere.folder / "pictures").mkdir()
    (elsewhere.folder / "pictures" / "a.webp").touch()
    said, failed = elsewhere.manage("restore", str(origin[1]))
    assert failed and "“pictures” is not empty: it has a.webp" in said


def test_a_backup_of_a_later_release_is_refused(origin, elsewhere, tmp_path):
    from core.backup.bags import digest_of, read_manifest, write_tags

    bag = shutil.copytree(bags(origin[1])[-1], tmp_path / "2026-01-01T000000Z")
    state = json.loads((bag / "data/state.json").read_text())
    state["migrations"].append("core.0099_from_the_future")
    (bag / "data/state.json").unlink()
    (bag / "data/state.json").write_text(json.dumps(state))
    digest = digest_of(bag / "data/state.json")
    write_tags(bag, read_manifest(bag) | {"data/state.json": digest}, {})
    said, failed = elsewhere.manage("restore", str(bag))
    assert failed and "core.0099_from_the_future is not known here" in said


def test_files_of_the_bag_before_take_no_room_again(origin):
    first, second = bags(origin[1])
    name = "data/storages/originals/ab/abc"
    assert (first / name).stat().st_ino == (second / name).stat().st_ino


def test_old_bags_go_and_what_the_newest_shares_with_them_stays(origin, tmp_path):
    from core.backup.back_up import drop_old
    from core.backup.bags import check_bag

    folder = shutil.copytree(origin[1], tmp_path / "kept")
    assert [bag.name for bag in drop_old(folder, 1)] == [bags(origin[1])[0].name]
    assert check_bag(bags(folder)[0])
