"""Memory that processes share, without a lock: what was written by halves is not there."""
import os
from hashlib import sha256

from teardowns.views.shared_pages import HEAD, MOST, ROOM, SharedPages

ONE, OTHER = (sha256(name).digest() for name in (b"one", b"other"))


def test_what_another_process_put_is_found():
    pages = SharedPages(places=2)
    if not (child := os.fork()):
        pages.put(ONE, b"a page")
        os._exit(0)
    os.waitpid(child, 0)
    assert pages.get(ONE) == b"a page" and pages.get(OTHER) is None


def test_the_newest_under_a_name_stands_and_only_once():
    pages = SharedPages(places=2)
    for content in (b"first", b"second, longer", b""):
        pages.put(ONE, content)
        assert pages.get(ONE) == content
    assert [pages._read(at) is None for at in (0, ROOM)].count(False) == 1


def test_a_place_written_by_halves_is_empty_and_can_be_written_again():
    pages = SharedPages(places=1)
    pages.put(ONE, b"a page")
    pages._memory[HEAD.size + len(ONE)] ^= 1
    assert pages.get(ONE) is None
    pages.put(ONE, b"a page")
    assert pages.get(ONE) == b"a page"


def test_a_length_that_makes_no_sense_is_not_read():
    pages = SharedPages(places=1)
    pages._memory[:HEAD.size] = HEAD.pack(bytes(32), 2 ** 32 - 1)
    assert pages.get(ONE) is None


def test_in_a_full_place_the_newer_stays():
    pages = SharedPages(places=1)
    pages.put(ONE, b"one")
    pages.put(OTHER, b"other")
    assert pages.get(ONE) is None and pages.get(OTHER) == b"other"


def test_what_is_too_long_is_not_kept_and_leaves_others_alone():
    pages = SharedPages(places=1)
    pages.put(ONE, b"one")
    pages.put(OTHER, bytes(MOST - len(OTHER) + 1))
    assert pages.get(OTHER) is None and pages.get(ONE) == b"one"
    pages.put(OTHER, bytes(MOST - len(OTHER)))
    assert pages.get(OTHER) == bytes(MOST - len(OTHER))


def test_cleared_nothing_is_there():
    pages = SharedPages(places=2)
    pages.put(ONE, b"one")
    pages.clear()
    assert pages.get(ONE) is None
