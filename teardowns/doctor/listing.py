"""Whether the listing, which lists and searches read, is what is public."""
from itertools import islice

from core.doctor.findings import examines, fault, good
from teardowns.models import ListedUnit, Publication
from teardowns.services.list_units import listing_differences

NEWEST, NAMED = 500, 20


@examines("listing", asks_database=True)
def as_many_are_listed_as_are_public():
    listed, public = ListedUnit.objects.listed().count(), Publication.objects.current().count()
    if listed != public:
        yield fault(f"{listed} units are listed and {public} are public.",
                    "Run manage.py list_units.")


@examines("listing", asks_database=True)
def the_newest_are_listed_as_they_are():
    """The newest alone, which takes a second; `list_units --check` holds every row against it."""
    numbers = ListedUnit.objects.order_by("-unit_id").values_list("unit_id", flat=True)
    after = next(iter(numbers[NEWEST:NEWEST + 1]), 0)
    found = list(islice(listing_differences(after), NAMED))
    if found:
        more = " or more" if len(found) == NAMED else ""
        yield fault(f"{len(found)}{more} units are listed otherwise than they are public, unit "
                    f"{found[0][0]} the first.", "Run manage.py list_units.")
    else:
        yield good("The listing says what is public.")
