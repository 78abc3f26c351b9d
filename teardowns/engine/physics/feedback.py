"""Which feedback arrangements can change the output voltage: the truth table as data.

Three independent facts must hold for more than one voltage: something talks to the load,
something can move the regulation point, and the parts survive the higher voltage. The table is
about the first two.
"""
from dataclasses import dataclass

import numpy as np

YES, NO, DEFECT = "yes", "no", "safety defect"
FLAGS = ("isolated_feedback", "primary_feedback", "primary_decodes_requests",
         "protocol_controller", "feedback_node_driven", "port_converter", "bus_switch")
ANY = None


@dataclass(frozen=True, slots=True)
class Arrangement:
    row: str
    flags: tuple            # 1, 0 or ANY, in the order of FLAGS
    switchable: str
    note: str
    scored: bool = True     # False: a kind of another row, told apart by what does not matter here


TABLE = (
    Arrangement("F1", (0, 1, 0, 0, 0, 0, ANY), NO,
                "Regulated from the auxiliary winding: one voltage, fixed by divider and turns."),
    Arrangement("F2", (0, 1, 0, 1, 0, 0, ANY), NO,
                "The protocol chip has nothing to move: it can only signal 5 V modes."),
    Arrangement("F3", (0, 1, 1, 0, 0, 0, ANY), YES,
                "The primary controller decodes load patterns: the voltages of its data sheet."),
    Arrangement("F4", (1, 0, 0, 0, 0, 0, ANY), NO,
                "Optocoupler and shunt regulator with a fixed divider."),
    Arrangement("F5", (1, 0, 0, 1, 0, 0, ANY), NO,
                "The protocol chip was not seen to reach the divider: trace it again."),
    Arrangement("F6", (1, 0, 0, 1, 1, 0, ANY), YES,
                "The protocol chip moves the regulation point through the isolated feedback."),
    Arrangement("F7", (1, ANY, ANY, 1, 1, 0, ANY), YES,
                "A secondary-side controller commands the primary switch.", scored=False),
    Arrangement("F8", (ANY, ANY, ANY, 1, ANY, 1, ANY), YES,
                "A DC-DC converter per port: up to its input voltage if it only steps down."),
    Arrangement("F9", (ANY, ANY, ANY, 0, 0, 1, ANY), NO,
                "A DC-DC converter with nothing that talks to the load: one voltage."),
    Arrangement("F10", (1, 0, 0, 1, 1, 0, 0), YES,
                "Switchable, without a pass switch: a Type-C source has to remove its voltage "
                "when detached.", scored=False),
    Arrangement("F11", (0, 0, 0, ANY, ANY, 0, ANY), NO,
                "No closed loop: the output voltage is only loosely held."),
    Arrangement("F12", (0, 1, 0, 1, 1, 0, ANY), DEFECT,
                "The protocol chip reaches the auxiliary winding's divider through a plain part "
                "across the barrier: a safety defect, not scored as switchable.", scored=False),
)
# How often a part that is there is not seen, by sides of the board photographed.
MISSED = (0.6, 0.4, 0.05)
MISSED_TRACE = 0.1      # a connection is overlooked more easily than a part (row F5)
MISTAKEN = 0.01         # a part is taken for another


def matching_row(flags: dict[str, float]) -> Arrangement | None:
    """The closest row that the observations meet without a guess; None when they leave it open."""
    for arrangement in sorted(TABLE, key=lambda a: a.flags.count(ANY)):
        wanted = zip(FLAGS, arrangement.flags, strict=True)
        if all(want is ANY or flags.get(name) == want for name, want in wanted):
            return arrangement
    return None


def switchable_ratio(observed, photographed_sides):
    r"""How much better "can be switched" explains the observations than "cannot".

    .. math:: \frac{P(\text{seen}\mid\text{switchable})}{P(\text{seen}\mid\text{fixed})}

    The arrangements of each side are equally likely; a flag that an arrangement leaves open is
    as likely 1 as 0. A part that is there is missed with the probability that the photographs
    leave; "not looked at" says nothing.

    Parameters
    ----------
    observed : (7, n) float
        The flags in the order of FLAGS: 1 seen, 0 looked and not found, NaN not looked at. [1]
    photographed_sides : (n,) float
        Sides of the board photographed, 0 to 2. [1]

    Returns
    -------
    (n,) float
        The ratio; 1 where nothing was looked at. [1]

    Errors
    ------
    Formula: the probabilities of missing a part are judgements, from memory: 0.05 with both
    sides photographed, 0.4 with one, 0.6 with a description only; 0.1 for a connection.

    Examples
    --------
    >>> nothing = np.full((7, 1), np.nan)
    >>> float(switchable_ratio(nothing, np.array([2.0]))[0])
    1.0

    References
    ----------
    .. [1] Reference architecture with shunt regulator and optocoupler: Texas Instruments data
       sheets UCC28C43 and UCC28750; note SDAA053.
    """
    missed = np.asarray(MISSED)[np.clip(photographed_sides, 0, 2).astype(int)]
    yes, no = (
        np.mean([_chance(observed, a.flags, missed)
                 for a in TABLE if a.scored and a.switchable == side], axis=0)
        for side in (YES, NO)
    )
    return yes / no


def _chance(observed, flags, missed):
    chance = np.ones(observed.shape[1])
    for name, seen, present in zip(FLAGS, observed, flags, strict=True):
        miss = np.maximum(missed, MISSED_TRACE) if name == "feedback_node_driven" else missed
        share = 0.5 if present is ANY else float(present)
        found = share * (1 - miss) + (1 - share) * MISTAKEN
        chance = chance * np.where(np.isnan(seen), 1.0, np.where(seen > 0.5, found, 1 - found))
    return chance
