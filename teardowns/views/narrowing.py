"""What pages that narrow units down share: facets as markup, and what was chosen wrongly."""
from teardowns.filters import values_of
from teardowns.presenting.facet_lists import facet_lists
from teardowns.services.facets import FACETS

LABELS = {code: facet.label for code, facet in FACETS.items()}


def facets(asked, counts):
    """asked : as `list_query` reads an address; counts : units by facet and code"""
    values = {code: values_of(facet, counts[code]) for code, facet in FACETS.items()}
    return facet_lists(LABELS, values, counts, asked.choices)


def wrong_choices(asked):
    """Of each facet in which something was chosen that it has not: its name, and what to do."""
    return [f"{LABELS[name]}: {words}" for name, words in asked.errors.items() if name in LABELS]
