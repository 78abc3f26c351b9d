"""Ports that share one supply: do the printed parts fit the printed total?

“50 W (30 W + 20 W)” says that both parts are given at once, so that they add up. A port's own
rating is what it gives alone: it may be as high as the total, and no higher.
"""
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from math import isnan

from teardowns.engine.mathml import LEQ, equation, op, row, sym
from teardowns.engine.outcome import CANNOT_TELL, CONSISTENT, INCONSISTENT, Outcome
from teardowns.engine.port_claims import listed
from teardowns.engine.rule import check
from teardowns.engine.wording import plain

ALLOWED = 0.05              # of the total; rounding on plates stays below it
ONE_COMBINATION = 3         # parts of different ports; four may be two pairs, used by turns


@dataclass(frozen=True, slots=True)
class Part:
    power: float        # W
    port: str           # "" = not known

    @property
    def words(self) -> str:
        return f"{self.port} {plain(self.power, 'W')}".lstrip()


@check(
    on="unit",
    title="Parts and ports against the total",
    source="Plain arithmetic; the 5 % for rounding is common practice, no source.",
    validity="Units that print a total for all their ports. Which parts are meant at the same "
             "time has to follow from the label; where it does not, the sum does not decide.",
    formula=equation(row(op("∑"), sym("P", "part")), LEQ, sym("P", "total"), op(","),
                     sym("P", "port"), LEQ, sym("P", "total")),
)
def shared_power(claimed_powers, claimed_kinds, claimed_ports, claimed_shared):
    claims = [claim for claim in zip(claimed_powers, claimed_kinds, claimed_ports, claimed_shared,
                                     strict=True) if not isnan(claim[0])]
    totals = [power for power, kind, port, shared in claims
              if kind == "total" and not port and not shared]
    outputs = [(Part(power, port), shared) for power, kind, port, shared in claims
               if kind == "output"]
    if not totals:
        return None
    parts = [part for part, shared in outputs if shared]
    alone = _by_port(part for part, shared in outputs if not shared)
    return _worst([*_above(max(totals), [*parts, *alone]), *_together(max(totals), parts),
                   *_apart(max(totals), alone)], max(totals))


def _worst(found, total):
    """One outcome of several: a contradiction before a doubt before a consistency."""
    for outcome in (INCONSISTENT, CANNOT_TELL, CONSISTENT):
        sentences = [sentence for kind, sentence in found if kind == outcome]
        if sentences:
            return Outcome(outcome, " ".join(sentences), {"total": total})
    return None


def _by_port(parts):
    """The highest rating of each port, in the order of the label."""
    highest: dict[str, Part] = {}
    for part in parts:
        if part.port not in highest or part.power > highest[part.port].power:
            highest[part.port] = part
    return list(highest.values())


def _exceeds(power, total):
    return power > (1 + ALLOWED) * total


def _above(total, parts) -> Iterator[tuple[str, str]]:
    if above := [part for part in parts if _exceeds(part.power, total)]:
        yield INCONSISTENT, (f"{listed(part.words for part in above)} is printed for a part, and "
                             f"{plain(total, 'W')} for the whole. The contradiction lies inside "
                             "the label.")


def _together(total, parts) -> Iterator[tuple[str, str]]:
    """Parts that are given at once, as far as the label tells which ones are."""
    if len(parts) < 2:
        return
    together = sum(part.power for part in parts)
    adds = f"{' + '.join(part.words for part in parts)} = {plain(together, 'W')}"
    if not _exceeds(together, total):
        yield CONSISTENT, f"{adds} fits the total of {plain(total, 'W')}."
    elif _is_one_combination(parts):
        yield INCONSISTENT, (f"{adds}, more than the total of {plain(total, 'W')} that is printed. "
                             "The contradiction lies inside the label.")
    elif len(parts) == 2:
        yield CANNOT_TELL, (f"{adds}, more than the total of {plain(total, 'W')}: a contradiction "
                            "if both are meant at the same time, which was not recorded. Name "
                            "the port of each part.")


def _is_one_combination(parts):
    ports = Counter(part.port for part in parts)
    return "" not in ports and max(ports.values()) == 1 and len(parts) <= ONE_COMBINATION


def _apart(total, alone) -> Iterator[tuple[str, str]]:
    """Ratings of ports that are used alone."""
    if len(alone) < 2 or any(not part.port for part in alone):
        return
    together, whole = sum(part.power for part in alone), plain(total, "W")
    ratings = listed(part.words for part in alone)
    if _exceeds(total, together):
        yield CANNOT_TELL, (f"{ratings} come to {plain(together, 'W')}, less than the total of "
                            f"{whole}: is a port or a rating left out?")
    elif _exceeds(together, total):
        yield CONSISTENT, (f"{ratings}: each fits the total of {whole} alone, and they share it "
                           "when used together.")
    else:
        yield CONSISTENT, f"{ratings} fit the total of {whole}."
