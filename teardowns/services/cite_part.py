"""Link a component to a part of the library, with the published limits that were looked up."""
from dataclasses import dataclass
from math import isclose

from teardowns.models import Part, PartLimit


class SaveRefused(Exception):
    """Why a section cannot be saved, in the user's words."""

    def __init__(self, message: str) -> None:
        super().__init__(message)
        self.message = message


@dataclass(frozen=True)
class PartCitation:
    """A part's name as in its data sheet; limits in SI by quantity code, with their source."""

    marking: str
    function: str
    limits: tuple[tuple[str, float], ...] = ()
    citation: str = ""

    def agrees_with(self, part: Part | None) -> bool:
        """Whether the stored part says the same, or the citation only names it."""
        if part is None or part.marking != self.marking:
            return False
        stored = {(limit.quantity, limit.citation): limit.value for limit in part.limits.all()}
        return all(
            isclose(stored.get((code, self.citation), -1.0), value, rel_tol=1e-9)
            for code, value in self.limits
        )


def cite_part(citation: PartCitation, curator, unit) -> Part:
    """The part, made or completed. Raises SaveRefused for a limit that others rely on.

    A part of the library may carry verdicts of other units: only what this contributor brought
    in, nobody else uses and no moderator accepted yet, changes from a bench sheet.
    """
    part = Part.objects.filter(marking=citation.marking).first()
    if part is None:
        part = Part.objects.create(marking=citation.marking, function=citation.function,
                                   curator=curator)
    if citation.agrees_with(part):
        return part
    if (part.curator_id != curator.pk or part.accepted_at is not None
            or part.components.exclude(unit=unit).exists()):
        raise SaveRefused(
            f"The part library has other published values for {part.marking}, and other units "
            "rely on them. Leave the published value blank to use the library's, and propose "
            "another one on the part's page there."
        )
    _replace_limits(part, citation)
    return part


def _replace_limits(part, citation):
    codes = [code for code, _ in citation.limits]
    for limit in part.limits.filter(quantity__in=codes):
        limit.delete()
    for code, value in citation.limits:
        PartLimit.objects.create(part=part, quantity=code, value=value, citation=citation.citation)
    part.version += 1
    part.save()
