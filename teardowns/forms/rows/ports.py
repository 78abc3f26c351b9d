"""Output connectors, their data lines and what they advertise."""
import re

from django import forms
from django.core.exceptions import ValidationError

from teardowns.engine.quantities import QUANTITIES
from teardowns.forms.evidence_form import EvidenceForm, text_field
from teardowns.forms.quantity_field import QuantityField
from teardowns.models import Connector, DataWiring, How, Port, State

CONTACTS = [("", "not looked"), ("yes", "full set"), ("no", "reduced set")]
WITHOUT_CC = {Connector.USB_A, Connector.MICRO_B, Connector.BARREL, Connector.TERMINAL}
# What a printed name leaves no doubt about: “USB-C1”, “Type C”, “micro USB”.
NAMES = ((re.compile(r"micro", re.IGNORECASE), Connector.MICRO_B),
         (re.compile(r"(?:usb|type)[\s_-]*c(?![a-z])", re.IGNORECASE), Connector.USB_C),
         (re.compile(r"(?:usb|type)[\s_-]*a(?![a-z])", re.IGNORECASE), Connector.USB_A))
_WORD = re.compile(r"(?:0x)?([0-9A-Fa-f]{8})")


class PortForm(EvidenceForm):
    model = Port
    main = ("label", "connector", "wiring", "high_current_contacts", "advertised", "cc_current")

    label = text_field("Name, as printed or your own", 40)
    connector = forms.ChoiceField(choices=[("", "by its name"), *Connector.choices],
                                  required=False, label="Connector", initial="")
    wiring = forms.ChoiceField(choices=DataWiring, required=False, label="Data lines")
    high_current_contacts = forms.ChoiceField(
        choices=CONTACTS, required=False, label="Power contacts"
    )
    advertised = forms.CharField(
        required=False, max_length=200, label="Advertised capabilities",
        help_text="As a protocol analyser prints them: 32-bit words of eight hexadecimal digits, "
                  "with spaces between.",
    )
    cc_current = QuantityField(
        "A", label="Current that CC advertises",
        help_text="From the voltage across 5.1 kΩ on CC: about 0.41 V is 0.5 or 0.9 A, 0.92 V is "
                  "1.5 A, 1.68 V is 3 A.",
    )

    def initial_of(self, row):
        contacts = {True: "yes", False: "no", None: ""}[row.high_current_contacts]
        return super().initial_of(row) | {
            "high_current_contacts": contacts, "advertised": " ".join(row.advertised),
            "cc_current": self.fields["cc_current"].print(row.cc_current),
        }

    def clean_advertised(self):
        words = self.cleaned_data["advertised"].replace(",", " ").split()
        for word in words:
            if not _WORD.fullmatch(word):
                raise ValidationError(f"“{word}” is not a 32-bit word: write eight hexadecimal "
                                      "digits, for example 0A01912C.")
        return [_WORD.fullmatch(word)[1].upper() for word in words]

    def check(self, cleaned):
        if not cleaned["label"]:
            self.add_error("label", "A port needs a name: the printed one, or for example USB-C1.")
        elif not (cleaned["connector"] or connector_named(cleaned["label"])):
            self.add_error("connector", f"“{cleaned['label']}” names no connector: choose which "
                                        "one it is.")
        if cleaned["cc_current"] is not None:
            self.check_cc(cleaned["cc_current"],
                          cleaned["connector"] or connector_named(cleaned["label"]))

    def check_cc(self, current, connector):
        most = QUANTITIES["type_c_current"].high
        if current > most:
            self.add_error("cc_current", f"CC advertises {most:g} A at most: check the number and "
                                         "its unit.")
        if connector in WITHOUT_CC:
            self.add_error("cc_current", "This connector has no CC contacts: clear this, or "
                                         "correct the connector.")

    def values(self):
        cleaned = self.cleaned_data
        own = {name: cleaned[name]
               for name in ("label", "wiring", "advertised", "cc_current", "note")}
        return own | {
            "connector": cleaned["connector"] or connector_named(cleaned["label"]),
            "high_current_contacts": {"yes": True, "no": False, "": None}[
                cleaned["high_current_contacts"]
            ],
        }

    def new_values(self):
        return {"state": State.RECORDED.value, "how": How.READ_OFF.value}

    @staticmethod
    def check_rows(forms):
        """Names tell the ports apart, in claims and in load tests."""
        seen = set()
        for form in forms:
            label = form.cleaned_data.get("label")
            if label and label in seen:
                form.add_error("label", f"Two ports are named “{label}”: give each its own name.")
            seen.add(label)


def connector_named(label):
    """The connector that a port's name says, or "" where it says none or more than one."""
    named = [connector.value for name, connector in NAMES if name.search(label)]
    return named[0] if len(named) == 1 else ""
