"""Where a number's working and a row of evidence stand."""
from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from django.urls import reverse


@dataclass(frozen=True, slots=True)
class Links:
    pk: int
    version: str = ""        # a number or "working"; "" for what stands

    @property
    def unit(self) -> str:
        if not self.version:
            return reverse("unit_detail", args=[self.pk])
        if self.version == "working":
            return reverse("unit_working_copy", args=[self.pk])
        return reverse("unit_version", args=[self.pk, self.version])

    @property
    def document(self) -> str:
        return self._asked(reverse("unit_document", args=[self.pk]))

    def working(self, line_id: str, end: str, claim: str = "") -> str:
        """Of a line as it stands for the largest claim, or for the claim of this ref."""
        address = reverse("unit_working", args=[self.pk, line_id, end])
        return self._asked(address, f"claim={claim.partition('/')[2]}" if claim else "")

    def safety(self, rule_id: str, subject: str = "") -> str:
        """Of what one rule about safety says of one subject, see `subject_keys`."""
        address = reverse("unit_working", args=[self.pk, rule_id, "low"])
        return self._asked(address, f"of={subject}" if subject else "")

    def claim(self, ref: str) -> str:
        return self._asked(reverse("unit_claim_working", args=[self.pk, ref.partition("/")[2]]))

    def _asked(self, address: str, asked: str = "") -> str:
        """The address with its query, of the version that the page shows."""
        of = f"version={self.version}" if self.version else ""
        query = "&".join(filter(None, (asked, of)))
        return f"{address}?{query}" if query else address

    def evidence(self, ref: str) -> str:
        return f"{self.unit}#{anchor(ref)}"


def links_of(unit: Any) -> Links:
    """The links of the state of the unit that a page shows."""
    return Links(unit.pk, unit.version_shown)


def anchor(ref: str) -> str:
    """The id of a row on the unit page: `measurement/mass` is `measurement-mass`."""
    return ref.replace("/", "-")


def claim_anchor(ref: str) -> str:
    """The id of a claim's verdict, apart from that of its row of evidence."""
    return f"verdict-{anchor(ref)}"
