"""The rulebook as a person reads it: every rule, every default, with its source."""
from dataclasses import dataclass
from math import exp
from typing import NamedTuple

from django.utils.safestring import SafeString, mark_safe

from core.words.as_written import AsWritten
from core.words.said import said
from teardowns.engine.defaults import ASSUMED_MAINS, DEFAULTS
from teardowns.engine.evidence import ASSUMED_U
from teardowns.engine.lines import SHARED
from teardowns.engine.mathml import inline
from teardowns.engine.physics.cores import CORES, Core
from teardowns.engine.physics.feedback import FLAGS, TABLE
from teardowns.engine.quantities import QUANTITIES
from teardowns.engine.rule import CHECK, Rule, Worked
from teardowns.engine.rulebook import Rulebook
from teardowns.engine.subjects import COLUMNS
from teardowns.engine.wording import plain, shown
from teardowns.figures.marks import kind_mark
from teardowns.models import How
from teardowns.reading.quantity import print_quantity

from .evidence_names import quantity_label
from .numbers import THIN, number

CONDITIONS = {      # what a rule reads besides the quantities of the unit
    "mains_voltage": ("Mains voltage", "The end of the rated range that is looked at."),
    "mains_frequency": ("Mains frequency", "As the plate prints it."),
    "output_voltage": ("Output voltage", "The voltage that the claim states."),
    "failed_tests": ("Loads that were lost", "How many, in conditions that count."),
    "claim_voltage": ("Claimed voltage", "As printed."),
    "claim_current": ("Claimed current", "As printed."),
    "claim_power": ("Claimed power", "As printed, else voltage times current."),
    "claim_printed_power": ("Printed power", "As printed; not known where only V and A are."),
    "claim_connector": ("Connector", "Of the port that the claim is about."),
    "claim_kind": ("Kind of claim", "One output, a total, or a phrase of a listing."),
    "claim_shared": ("Shared claim", "Whether several ports share the claimed power."),
    "claim_port": ("Port", "The label of the port that the claim is about."),
    "claim_wiring": ("Data lines of the port", "What D+ and D− lead to."),
    "claim_outlets": ("Ports that the claim may mean", "1 where it names one."),
    "claim_words": ("Capability list of the port", "The 32-bit words that it advertises."),
    "port_label": ("Port", "As printed beside it."),
    "port_connector": ("Connector of the port", "Its kind."),
    "port_wiring": ("Data lines of the port", "What D+ and D− lead to."),
    "port_words": ("Capability list of the port", "The 32-bit words that it advertises."),
    "port_voltages": ("Voltages claimed at the port", "As printed."),
    "port_currents": ("Currents claimed at the port", "As printed."),
    "port_powers": ("Powers claimed at the port", "As printed, else voltage times current."),
    "claimed_voltages": ("All claimed voltages", "As printed."),
    "claimed_currents": ("All claimed currents", "As printed."),
    "claimed_powers": ("All claimed powers", "As printed, else voltage times current."),
    "claimed_kinds": ("Kinds of all claims", "One output, a total, or a phrase of a listing."),
    "port_count": ("Number of ports", "As recorded."),
    "claimed_ports": ("Ports of all claims", "Labels as printed."),
    "claimed_shared": ("Shared claims", "Which powers several ports share."),
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


class WorkedRow(NamedTuple):
    inputs: str             # "2.3 A, 5 V"
    result: str             # "11.5 W"
    tolerance: str          # "5 %", or "" where it is exact
    source: str


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
    doubted: bool                       # whether a part that it rests on may be mistaken
    beside: tuple[str, str] | None      # anchor and title of the line beside which it is silent
    worked: tuple[WorkedRow, ...]


def method_sheet(rulebook: Rulebook) -> dict:
    """What the method page prints of the rulebook."""
    return {
        "edition": rulebook.edition,
        "version": rulebook.version,
        "fingerprint": rulebook.fingerprint,
        "chapters": [
            ("power", "Rules about the continuous output power", _sheets(rulebook, "power")),
            ("voltage", "Rules about the output voltage", _sheets(rulebook, "voltage")),
            ("checks", "Checks", _sheets(rulebook, "checks")),
        ],
        "shared": [quantity_label(code) for code in SHARED],
        "arrangements": [
            (row.row, [_present(flag) for flag in row.flags], row.switchable, row.note)
            for row in TABLE],
        "arrangement_flags": [quantity_label(code) for code in FLAGS],
        "cores": [_core(core) for core in CORES],
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


def _sheets(rulebook: Rulebook, chapter: str) -> list[RuleSheet]:
    return [
        RuleSheet(
            id=rule.id, anchor=rule_anchor(rule.id), title=rule.title, kind=_kind(rule),
            summary=tuple(rule.summary.split("\n\n")), formula=mark_safe(rule.formula),
            inputs=tuple(_input(rule, code) for code in rule.reads),
            source=rule.source, validity=rule.validity, model_error=_own_uncertainty(rule),
            margin=_margin(rule.margin) if rule.margin else "",
            doubted=rule.doubt is not None, beside=_beside(rulebook, rule),
            worked=tuple(_worked(rule, one) for one in rule.worked),
        )
        for rule in getattr(rulebook, chapter)
    ]


def _own_uncertainty(rule: Rule) -> str:
    if rule.spread:
        return "As the habit scatters at this size; the working shows it."
    return f"± {100 * rule.model_error:g}{THIN}% (k = 1)" if rule.model_error else ""


def _beside(rulebook: Rulebook, rule: Rule) -> tuple[str, str] | None:
    return (rule_anchor(rule.unless), rulebook[rule.unless].title) if rule.unless else None


def _worked(rule: Rule, one: Worked) -> WorkedRow:
    inputs = AsWritten(", ".join(f"{said(_name(code).lower())} {said(_amount(code, value))}"
                                 for code, value in one.inputs.items()))
    tolerance = f"{100 * one.tolerance:g}{THIN}%" if one.tolerance >= 1e-6 else ""
    return WorkedRow(inputs, plain(one.result, rule.unit or "1"), tolerance, one.source)


def _amount(code: str, value: float) -> str:
    return shown(code, value) if code in QUANTITIES else f"{value:g}"


def _present(flag: int | None) -> str:
    return {1: "yes", 0: "no", None: "either"}[flag]


def _core(core: Core) -> tuple[str, ...]:
    return (
        ", ".join((core.name, *core.aliases)),
        " × ".join(number(1e3 * size, 3) for size in (core.width, core.height, core.depth)),
        print_quantity(1e6 * core.area, "mm²", uncertainty=1e6 * core.area_u),
        number(1e3 * core.length, 3), number(1e6 * core.window_area, 2), core.source)


def _kind(rule: Rule) -> SafeString:
    return mark_safe("check" if rule.kind == CHECK else kind_mark(rule.kind, rule.kind))


def _margin(scale: float) -> str:
    return f"half-normal, scale {scale:g} in ln: a factor of {exp(scale):.2f}"


def _input(rule: Rule, code: str) -> Input:
    symbol = rule.symbols.get(code, "")
    name, meaning = name_and_meaning(code)
    return Input(mark_safe(inline(symbol)) if symbol else "", name, meaning,
                 _otherwise(rule, code))


def _name(code: str) -> str:
    return name_and_meaning(code)[0]


def name_and_meaning(code: str, on: str = "unit") -> tuple[str, str]:
    """Of a parameter: a quantity, a condition, or a column of what the rule is about."""
    if code in QUANTITIES:
        return QUANTITIES[code].label, QUANTITIES[code].meaning
    if code in CONDITIONS:
        return CONDITIONS[code]
    column = COLUMNS.get(on, {}).get(code) or COLUMNS["unit"].get(code)
    if column is not None:
        return column.label, column.meaning
    name, _ = name_and_meaning(code.removesuffix("_u"), on)
    return f"Uncertainty: {name}", "Expanded, of two standard uncertainties."


def _otherwise(rule: Rule, code: str) -> str:
    if code in MAINS_DEFAULTS:
        return MAINS_DEFAULTS[code]
    if code in DEFAULTS:
        return DEFAULTS[code].source
    if code in rule.optional:
        return "Counts as not known."
    return SILENT
