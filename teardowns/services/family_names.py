"""What the board families are called that a list counts by their slugs."""
from collections.abc import Iterable

from teardowns.models import BoardFamily


def family_names(slugs: Iterable[str]) -> dict[str, str]:
    wanted = list(slugs)
    if not wanted:
        return {}
    return dict(BoardFamily.objects.filter(slug__in=wanted).values_list("slug", "name"))
