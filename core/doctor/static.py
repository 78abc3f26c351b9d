"""Whether the collected static files are those of this code."""
import posixpath

from django.conf import settings
from django.contrib.staticfiles.finders import get_finders
from django.contrib.staticfiles.storage import staticfiles_storage

from core.doctor.findings import examines, fault, good

COLLECT = "Run manage.py collectstatic --no-input."


@examines("static")
def static_files_are_collected():
    """By size; a file whose text changed at the same length shows at the next release."""
    hashed = getattr(staticfiles_storage, "hashed_files", None)
    if hashed is None or settings.DEBUG:
        return
    missing = [name for name in _names() if name not in hashed]
    if missing:
        yield fault(f"{len(missing)} static files are not collected, {missing[0]} the first: pages "
                    "that use them fail.", COLLECT)
    else:
        yield good("Static files are collected.")


def _names():
    """As they are collected: some lie below a folder of their finder's."""
    return sorted(posixpath.join(getattr(store, "prefix", None) or "", name)
                  for finder in get_finders() for name, store in finder.list([]))
