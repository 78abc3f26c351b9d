"""Static files that an installed package brings: served from our own address, not copied here."""
from importlib import metadata
from pathlib import Path

from django.contrib.staticfiles.finders import BaseFinder
from django.contrib.staticfiles.utils import matches_patterns
from django.core.files.storage import FileSystemStorage

# Address below STATIC_URL → distribution, file in it. The folder's name is ours, the file's is not.
# uPlot 1.6.31 as the wheel youplot 1.0.0 has it: both files equal those of npm's uplot@1.6.31 byte
# for byte (compared when the package was chosen); a test holds their SHA-256.
PACKAGE_FILES = {
    "uplot/uplot.iife.min.js": ("youplot", "youplot/vendor/uplot.iife.min.js"),
    "uplot/uplot.min.css": ("youplot", "youplot/vendor/uplot.min.css"),
}


class PackageFilesFinder(BaseFinder):
    """Finds the listed files, and no others, where their packages are installed."""

    def check(self, **kwargs):
        return []

    def find(self, path, find_all=False, **kwargs):
        found = [str(place_of(path))] if path in PACKAGE_FILES else []
        return found if find_all or kwargs.get("all") else "".join(found)

    def list(self, ignore_patterns):
        for path in PACKAGE_FILES:
            place = place_of(path)
            if not matches_patterns(path, ignore_patterns):
                yield place.name, PackageStorage(place.parent, path.removesuffix(f"/{place.name}"))


class PackageStorage(FileSystemStorage):
    """A folder of a package; `prefix` is the folder below the static files that it stands for."""

    def __init__(self, location: Path, prefix: str):
        super().__init__(location=location)
        self.prefix = prefix


def place_of(path: str) -> Path:
    """Where a listed file lies on this machine."""
    distribution, file = PACKAGE_FILES[path]
    return Path(str(metadata.distribution(distribution).locate_file(file)))
