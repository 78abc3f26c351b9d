"""Where a number's working and a row of evidence stand."""
from dataclasses import dataclass

from django.urls import reverse


@dataclass(frozen=True, slots=True)
class Links:
    pk: int

    @property
    def unit(self) -> str:
        return reverse("unit_detail", args=[self.pk])

    @property
    def document(self) -> str:
        return reverse("unit_document", args=[self.pk])

    def working(self, line_id: str, end: str, claim: str = "") -> str:
        """Of a line as it stands for the largest claim, or for the claim of this ref."""
        address = reverse("unit_working", args=[self.pk, line_id, end])
        return f"{address}?claim={claim.partition('/')[2]}" if claim else address

    def safety(self, rule_id: str, subject: str = "") -> str:
        """Of what one rule about safety says of one subject, see `subject_keys`."""
        address = reverse("unit_working", args=[self.pk, rule_id, "low"])
        return f"{address}?of={subject}" if subject else address

    def claim(self, ref: str) -> str:
        return reverse("unit_claim_working", args=[self.pk, ref.partition("/")[2]])

    def evidence(self, ref: str) -> str:
        return f"{self.unit}#{anchor(ref)}"


def anchor(ref: str) -> str:
    """The id of a row on the unit page: `measurement/mass` is `measurement-mass`."""
    return ref.replace("/", "-")


def claim_anchor(ref: str) -> str:
    """The id of a claim's verdict, apart from that of its row of evidence."""
    return f"verdict-{anchor(ref)}"
