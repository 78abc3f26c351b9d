"""Whatever happens to a bag is noticed, and the first file is named."""
import random
import shutil

import bagit
import pytest

from core.backup.bags import Damaged, check_bag, digest_of, newest_bag, read_manifest, write_tags

FLIPS = 100


@pytest.fixture(scope="module")
def bag(tmp_path_factory):
    """Two files of data and one of state, as a backup has them."""
    bag = tmp_path_factory.mktemp("backups") / "2026-03-07T101500Z"
    payload = {}
    for name, content in (("data/database.sqlite3", b"rows" * 500), ("data/state.json", b"{}\n"),
                          ("data/storages/originals/ab/abc", b"pixels" * 200),
                          ("data/storages/originals/ab/abd", b"pixelt" * 200)):
        (bag / name).parent.mkdir(parents=True, exist_ok=True)
        (bag / name).write_bytes(content)
        payload[name] = digest_of(bag / name)
    write_tags(bag, payload, {"External-Description": "Backup", "Bagging-Date": "2026-03-07"})
    return bag


@pytest.fixture
def copy(bag, tmp_path):
    return shutil.copytree(bag, tmp_path / bag.name)


def test_a_whole_bag_is_whole_and_a_reader_of_bags_agrees(bag):
    assert check_bag(bag) == digest_of(bag / "tagmanifest-sha256.txt")
    assert bagit.Bag(str(bag)).is_valid()


def test_one_flipped_bit_anywhere_is_noticed(bag, tmp_path):
    """100 copies, in each one bit of one byte, spread over all files by their size."""
    chance = random.Random(20260307)
    places = [(path.relative_to(bag), at) for path in sorted(bag.rglob("*")) if path.is_file()
              for at in range(path.stat().st_size)]
    tags = [place for place in places if place[0].parts[0] != "data"]
    for number in range(FLIPS):
        name, at = chance.choice(tags if number % 2 else places)
        damaged = shutil.copytree(bag, tmp_path / str(number))
        content = bytearray((damaged / name).read_bytes())
        content[at] ^= 1 << chance.randrange(8)
        (damaged / name).write_bytes(content)
        with pytest.raises(Damaged):
            check_bag(damaged)


def test_the_damaged_file_is_named(copy):
    name = "data/storages/originals/ab/abc"
    (copy / name).write_bytes(b"pixelz" * 200)
    with pytest.raises(Damaged, match=f"^{name} is damaged"):
        check_bag(copy)


@pytest.mark.parametrize("size", [0, 1, 1199])
def test_a_file_cut_short_is_noticed(copy, size):
    with (copy / "data/storages/originals/ab/abc").open("r+b") as file:
        file.truncate(size)
    with pytest.raises(Damaged, match="ab/abc is damaged"):
        check_bag(copy)


def test_two_files_swapped_are_noticed(copy):
    one, other = (copy / "data/storages/originals/ab" / name for name in ("abc", "abd"))
    one.rename(copy / "aside")
    other.rename(one)
    (copy / "aside").rename(other)
    with pytest.raises(Damaged, match="ab/abc is damaged"):
        check_bag(copy)


def test_a_file_that_is_gone_and_one_too_many_are_named(copy):
    extra = copy / "data/storages/originals/ab/extra"
    extra.touch()
    with pytest.raises(Damaged, match="extra is in the backup and in no list"):
        check_bag(copy)
    extra.unlink()
    (copy / "data/state.json").unlink()
    with pytest.raises(Damaged, match="state.json is missing"):
        check_bag(copy)


@pytest.mark.parametrize("name", ["manifest-sha256.txt", "tagmanifest-sha256.txt", "bagit.txt"])
def test_a_list_cut_short_is_noticed(copy, name):
    text = (copy / name).read_bytes()
    for size in (0, 10, len(text) - 1):
        (copy / name).write_bytes(text[:size])
        with pytest.raises(Damaged):
            check_bag(copy)


def test_a_list_that_leads_out_of_the_bag_is_refused(copy, tmp_path):
    (tmp_path / "outside").write_bytes(b"x")
    payload = read_manifest(copy) | {"../outside": digest_of(tmp_path / "outside")}
    write_tags(copy, payload, {})
    with pytest.raises(Damaged, match="outside is missing"):
        check_bag(copy)


def test_a_bag_that_is_being_made_is_none(bag, tmp_path):
    (tmp_path / ".2026-03-08T000000Z.part").mkdir()
    (tmp_path / "2026-03-09T000000Z").mkdir()
    assert newest_bag(tmp_path) is None and newest_bag(tmp_path / "nowhere") is None
    assert newest_bag(bag.parent) == bag
