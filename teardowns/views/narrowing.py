"""What pages that narrow units down share: facets as markup, and what was chosen wrongly."""
from core.words.as_written import AsWritten
from teardowns.filters import values_of
from teardowns.presenting.facet_lists import facet_lists
from teardowns.services.facets import FACETS
from teardowns.services.family_names import family_names

LABELS = {code: facet.label for code, facet in FACETS.items()}


def facets(asked, counts, state=None):
    """asked : as `list_query` reads an address; counts : units by facet and code; state : of the
    listing, see `family_names`"""
    names = family_names({*counts["family"], *asked.choices.get("family", ())}, state)
    values = {code: values_of(facet, counts[code], names) for code, facet in FACETS.items()}
    return facet_lists(LABELS, values, counts, asked.choices)


def conditions(asked, state=None):
    """What narrows, as `list_query` reads it; a family by its name."""
    names = family_names(asked.choices.get("family", ()), state)
    return [(label, AsWritten(names[words]) if label == LABELS["family"] and words in names
             else words, rest) for label, words, rest in asked.conditions]


def wrong_choices(asked):
    """Of each facet in which something was chosen that it has not: its name, and what to do."""
    return [f"{LABELS[name]}: {words}" for name, words in asked.errors.items() if name in LABELS]
