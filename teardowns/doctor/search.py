"""Whether the database's index for searching is there, and is of what is public."""
from django.db import connection

from core.doctor.findings import examines, fault, good, warning
from teardowns import search_engines
from teardowns.models import ListedUnit, SearchTerm, SearchText

INDEX = "Run manage.py index_words."


@examines("search", asks_database=True)
def the_index_is_installed():
    if lacking := search_engines.missing(connection):
        yield fault(f"The index for searching lacks {', '.join(lacking)}.",
                    "Run manage.py migrate, as the owner of the tables.")
    else:
        yield good("The index for searching is installed.")


@examines("search", asks_database=True)
def what_is_public_can_be_found():
    if not ListedUnit.objects.listed().exists():
        return
    if not SearchText.objects.exists() or not SearchTerm.objects.exists():
        yield warning("Units are public and no word of them can be found.", INDEX)
