"""The rulebook as a person reads it: every rule, every default, with its source."""
from dataclasses import dataclass
from math import exp

from django.utils.safestring import SafeString, mark_safe

from teardowns.engine.defaults import ASSUMED_MAINS, DEFAULTS
from teardowns.engine.evidence import ASSUMED_U
from teardowns.engine.mathml import inline
from teardowns.engine.quantities import QUANTITIES
from teardowns.engine.rule import CHECK, Rule
from teardowns.engine.rulebook import Rulebook
from teardowns.figures.marks import kind_mark
from teardowns.models import How

from .evidence_names import quantity_label
from .numbers import THIN

CONDITIONS = {      # what a rule reads besides the quantities of the unit
    "mains_voltage": ("Mains voltage", "The end of the rated range that is looked at."),
    "mains_frequency": ("Mains frequency", "As the plate prints it."),
    "output_voltage": ("Output voltage", "The voltage that the claim states."),
    "claim_voltage": ("Claimed voltage", "As printed."),
    "claim_current": ("Claimed current", "As printed."),
    "claim_power": ("Claimed power", "As printed, else voltage times current."),
    "claim_printed_power": ("Printed power", "As printed; not known where only V and A are."),
    "claim_connector": ("Connector", "Of the port that the claim is about."),
}
MAINS_DEFAULTS = {
    "mains_voltage": "{:g} V and {:g} V are taken.".format(*ASSUMED_MAINS[:2]),
    "mains_frequency": f"{ASSUMED_MAINS[2]:g} Hz is taken.",
}
SILENT = "The rule stays silent."


@dataclass(frozen=True, slots=True)
class Input:
    symbol: SafeString      # MathML, or ""
    name: str
    meaning: str
    otherwise: str          # what happens when it was not recorded


@dataclass(frozen=True, slots=True)
class RuleSheet:
    id: str
    anchor: str
    title: str
    kind: SafeString
    summary: tuple[str, ...]            # paragraphs
    formula: SafeString
    inputs: tuple[Input, ...]
    source: str
    validity: str
    model_error: str                    # "" where the rule has none
    margin: str


def method_sheet(rulebook: Rulebook) -> dict:
    """What the method page prints of the rulebook."""
    return {
        "edition": rulebook.edition,
        "version": rulebook.version,
        "fingerprint": rulebook.fingerprint,
        "chapters": [
            ("power", "Rules about the continuous output power", _sheets(rulebook.power)),
            ("voltage", "Rules about the output voltage", _sheets(rulebook.voltage)),
            ("checks", "Checks", _sheets(rulebook.checks)),
        ],
        "defaults": [
            *((quantity_label(code), default.source) for code, default in DEFAULTS.items()),
            *((CONDITIONS[code][0], f"Where the plate does not say: {taken}")
              for code, taken in MAINS_DEFAULTS.items()),
        ],
        "assumed": [(How(how).label, f"{100 * u:g}{THIN}%") for how, u in ASSUMED_U.items()],
    }


def rule_anchor(rule_id: str) -> str:
    """The id of a rule on the method page: `power/bulk_capacitor` is `power-bulk_capacitor`."""
    return rule_id.replace("/", "-")


def _sheets(rules: tuple[Rule, ...]) -> list[RuleSheet]:
    return [
        RuleSheet(
            id=rule.id, anchor=rule_anchor(rule.id), title=rule.title, kind=_kind(rule),
            summary=tuple(rule.summary.split("\n\n")), formula=mark_safe(rule.formula),
            inputs=tuple(_input(rule, code) for code in rule.reads),
            source=rule.source, validity=rule.validity,
            model_error=f"± {100 * rule.model_error:g}{THIN}% (k = 1)" if rule.model_error else "",
            margin=_margin(rule.margin) if rule.margin else "",
        )
        for rule in rules
    ]


def _kind(rule: Rule) -> SafeString:
    return mark_safe("check" if rule.kind == CHECK else kind_mark(rule.kind, rule.kind))


def _margin(scale: float) -> str:
    return f"half-normal, scale {scale:g} in ln: a factor of {exp(scale):.2f}"


def _input(rule: Rule, code: str) -> Input:
    symbol = rule.symbols.get(code, "")
    if quantity := QUANTITIES.get(code):
        name, meaning = quantity.label, quantity.meaning
    else:
        name, meaning = CONDITIONS[code]
    return Input(mark_safe(inline(symbol)) if symbol else "", name, meaning,
                 _otherwise(rule, code))


def _otherwise(rule: Rule, code: str) -> str:
    if code in MAINS_DEFAULTS:
        return MAINS_DEFAULTS[code]
    if code in DEFAULTS:
        return DEFAULTS[code].source
    if code in rule.optional:
        return "Counts as not known."
    return SILENT
