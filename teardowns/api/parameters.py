"""Parameters that several operations take."""
from typing import Annotated

from ninja import Path, Query

from teardowns.api.paging import LARGEST, LONGEST, MOST, USUAL

UnitNumber = Annotated[int, Path(..., ge=1, le=LARGEST, description="Number of the unit.",
                                 example=8)]
Number = Annotated[int, Path(..., ge=1, le=999_999, description="Number of a version.", example=1)]
Id = Annotated[int, Path(..., ge=1, le=LARGEST, description="Its number.", example=1)]
Key = Annotated[str, Path(..., max_length=64, pattern=r"^[a-zA-Z0-9_-]+$",
                          description="Key of the row within the unit.", example="bulk-1")]
Slug = Annotated[str, Path(..., max_length=120, pattern=r"^[a-zA-Z0-9_-]+$",
                           description="Slug of the family.", example="mb-0714")]
Word = Annotated[str, Path(..., max_length=60, pattern=r"^[a-zA-Z0-9_-]+$",
                           description="Part of the id of a rule.", example="power")]
Cursor = Annotated[str, Query(max_length=LONGEST, pattern=r"^[A-Za-z0-9_-]*$",
                              description="“next” of the page before.")]
Size = Annotated[int, Query(ge=1, le=MOST, description="Rows of a page.")]
PAGED = ("cursor", "size")
__all__ = ["PAGED", "USUAL", "Cursor", "Id", "Key", "Number", "Size", "Slug", "UnitNumber", "Word"]
