"""Files of packages are found by name, and are the ones that were looked at."""
from hashlib import sha256

import pytest
from django.contrib.staticfiles import finders

from core.package_files import PACKAGE_FILES, PackageFilesFinder, place_of

# Of uPlot 1.6.31 (MIT licence), npm's uplot@1.6.31: dist/uPlot.iife.min.js and dist/uPlot.min.css.
# The publisher of the wheel is unknown, so its files must stay the ones that were compared.
DIGESTS = {
    "uplot/uplot.iife.min.js": "2d27e8ad3d228164525ce213f9dc716f39b4e3aee0cc773fb3491c96cf4921a2",
    "uplot/uplot.min.css": "df630c6a8d6f8eeaff264b50f73ce5b114f646ffd9a0bb74f049b0a00135fa04",
}


def test_every_file_is_pinned():
    assert set(DIGESTS) == set(PACKAGE_FILES)


@pytest.mark.parametrize("path", sorted(DIGESTS))
def test_a_file_is_the_one_that_was_looked_at(path):
    assert sha256(place_of(path).read_bytes()).hexdigest() == DIGESTS[path]


@pytest.mark.parametrize("path", sorted(PACKAGE_FILES))
def test_the_site_finds_it(path):
    assert finders.find(path) == str(place_of(path))


def test_nothing_else_of_a_package_is_served():
    finder = PackageFilesFinder()
    assert finder.find("uplot/__init__.py") == ""
    assert finder.find("uplot/../../../pip/__init__.py", find_all=True) == []


def test_collecting_gets_each_file_under_its_address():
    listed = {f"{storage.prefix}/{name}" for name, storage in PackageFilesFinder().list([])}
    assert listed == set(PACKAGE_FILES)
    assert all(storage.exists(name) for name, storage in PackageFilesFinder().list([]))


def test_what_is_not_wanted_is_not_collected():
    names = [name for name, _ in PackageFilesFinder().list(["*.css"])]
    assert names == ["uplot.iife.min.js"]
