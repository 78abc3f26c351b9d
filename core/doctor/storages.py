"""Each private storage gives back what is put in."""
import secrets

from django.conf import settings
from django.core.files.base import ContentFile
from django.core.files.storage import storages

from core.backup.stored_files import private_storages
from core.doctor.findings import examines, fault, good

PROBE = "doctor"        # folder of what is put in to try, below which nothing else lies


@examines("storages")
def storages_give_back():
    broken = False
    for alias in private_storages():
        if problem := trouble_with(alias):
            broken = True
            yield fault(f"The storage “{alias}” {problem}", _remedy())
    if not broken:
        where = f"the bucket {settings.S3_BUCKET}" if settings.S3_BUCKET else "the data folder"
        yield good(f"{len(private_storages())} storages in {where} give back what is put in.")


def trouble_with(alias):
    """What is wrong with a storage, or "": a file is put in, read and taken out again."""
    store, content = storages[alias], secrets.token_bytes(64)
    name = f"{PROBE}/{secrets.token_hex(8)}"
    try:
        name = store.save(name, ContentFile(content))
        with store.open(name) as file:
            whole = file.read() == content
        store.delete(name)
    except Exception as error:      # each backend has errors of its own
        return f"fails: {type(error).__name__}."
    if not whole:
        return "gives back something else than was put in."
    return "keeps what is deleted." if store.exists(name) else ""


def _remedy():
    if settings.S3_BUCKET:
        return ("Check S3_ENDPOINT, S3_BUCKET and that the keys in AWS_ACCESS_KEY_ID and "
                "AWS_SECRET_ACCESS_KEY may read, write, list and delete there.")
    return "Check that the folder belongs to the account that runs the site, and that room is left."
