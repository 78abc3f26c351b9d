"""The name of what is to be made: the same for all who ask for the same thing in one
language."""
from collections.abc import Sequence

from teardowns.models import Publication
from teardowns.services.printout_digest import printout_digest
from teardowns.typesetting.fonts import fonts_at_hand


def printout_key(versions: Sequence[Publication], language: str = "en") -> str:
    return printout_digest(versions, fonts_at_hand(), language)
