"""All the rules together: found, checked and versioned."""
import hashlib
import pkgutil
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cache
from importlib import import_module
from pathlib import Path

from . import rules
from .quantities import QUANTITIES
from .rule import CHECK, CONDITIONS, HAZARDS, LIMIT, SAFETY, SWITCH, Rule
from .scenarios import SCENARIOS, Scenario
from .subjects import COLUMNS

EDITION = "7"      # raised in the commit that moves a published number

# What a check may read beside the quantities, by what it is about.
FACTS = {
    "claim": {"claim_voltage", "claim_current", "claim_power", "claim_printed_power",
              "claim_connector", "claim_kind", "claim_shared", "claim_port", "claim_wiring",
              "claim_words", "claim_outlets"},
    "port": {"port_label", "port_connector", "port_wiring", "port_words", "port_voltages",
             "port_currents", "port_powers"},
    "unit": {"claimed_voltages", "claimed_currents", "claimed_powers", "claimed_kinds",
             "claimed_ports", "claimed_shared", "port_count"} | set(COLUMNS["unit"]),
}


@dataclass(frozen=True, slots=True)
class Rulebook:
    edition: str
    fingerprint: str                 # SHA-256 of every source file of the engine
    power: tuple[Rule, ...]          # lines of evidence about the continuous output power
    voltage: tuple[Rule, ...]        # about the highest output voltage
    checks: tuple[Rule, ...]
    safety: tuple[Rule, ...] = ()    # what stands between mains and a hand
    scenarios: tuple[Scenario, ...] = ()       # what a shortfall can lead to, see scenarios.py
    scenario_set: str = ""           # version of a set of scenarios that a site put in force
    reference: str = ""              # version of the set of measured units behind the habits

    @property
    def version(self) -> str:
        own = f"{self.edition}+{self.fingerprint[:8]}"
        return "+".join(filter(None, (own, self.reference, self.scenario_set)))

    def with_scenarios(self, scenarios: Sequence[Scenario], version: str) -> "Rulebook":
        """With another set of scenarios, whose version its own then names."""
        return replace(self, scenarios=tuple(scenarios), scenario_set=version)

    @property
    def lines(self) -> tuple[Rule, ...]:
        return self.power + self.voltage

    def __getitem__(self, rule_id: str) -> Rule:
        for rule in self.lines + self.checks + self.safety:
            if rule.id == rule_id:
                return rule
        raise KeyError(rule_id)


@cache
def load() -> Rulebook:
    """The rulebook of the files under engine/rules, in the order of the rules' ids."""
    found = sorted(_found(), key=lambda rule: rule.id)
    ids = {rule.id for rule in found} | {""}
    for rule in found:
        check_rule(rule)
        if rule.unless not in ids:
            raise LookupError(f"{rule.id} yields to {rule.unless}, which is no rule")
    return Rulebook(
        EDITION, fingerprint(),
        tuple(r for r in found if r.on == "power"),
        tuple(r for r in found if r.on == "voltage"),
        tuple(r for r in found if r.kind == CHECK),
        tuple(r for r in found if r.kind == SAFETY),
        SCENARIOS,
    )


def _found():
    for module in pkgutil.walk_packages(rules.__path__, rules.__name__ + "."):
        for item in vars(import_module(module.name)).values():
            rule = getattr(item, "rule", None)
            if isinstance(rule, Rule) and rule.compute.__module__ == module.name:
                yield rule


def check_rule(rule: Rule) -> None:
    """Raise LookupError for a rule that cannot be computed, trusted or read by people."""
    known = set(QUANTITIES) | CONDITIONS | FACTS.get(rule.on, set())
    if rule.kind == SAFETY:
        known = set(QUANTITIES) | {f"{code}_u" for code in QUANTITIES} | set(COLUMNS["unit"])
        known |= set(COLUMNS[rule.on])
    if missing := set(rule.reads) - known:
        raise LookupError(f"{rule.id} reads {sorted(missing)}, which is no quantity")
    worked = {code for one in rule.worked for code in one.inputs}
    if strange := (rule.optional | set(rule.symbols) | set(rule.asks) | worked) - set(rule.reads):
        raise LookupError(f"{rule.id} speaks of {sorted(strange)}, which it does not read")
    for name in ("title", "source", "validity", "formula", "summary"):
        if not getattr(rule, name):
            raise LookupError(f"{rule.id} has no {name}")
    if not all(one.source for one in rule.worked):
        raise LookupError(f"{rule.id} has a worked value without a source")
    if rule.compute.__module__.rsplit(".", 1)[1] != rule.id.rsplit("/", 1)[1]:
        raise LookupError(f"{rule.id} stands in {rule.compute.__module__}: name them alike")
    if rule.kind == SAFETY and not (rule.hazard in HAZARDS and rule.confidence):
        raise LookupError(f"{rule.id} says nothing of its hazard or of its confidence")
    if rule.kind not in (CHECK, SWITCH, SAFETY) and not (rule.model_error > 0 or rule.spread):
        raise LookupError(f"{rule.id} says nothing of its model error")
    if rule.kind == LIMIT and not rule.margin > 0:
        raise LookupError(f"{rule.id} is a limit without a design margin")


def fingerprint() -> str:
    digest = hashlib.sha256()
    root = Path(__file__).parent
    for path in sorted(root.rglob("*.py")):
        digest.update(path.relative_to(root).as_posix().encode())
        digest.update(path.read_bytes())
    return digest.hexdigest()
