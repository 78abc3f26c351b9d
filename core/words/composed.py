"""Texts whose pieces meet only while the site runs, so that no gatherer sees them whole."""

from itertools import permutations

JOINTS = (" and ", " or ", ", and ", ", or ")
FINDINGS = (
    "{label} found",
    "{label} not found",
    "{count} looked for and not found", "{count} looked for and not found.",
    "the {label}",
)
SAFETY = (
    "It lies above the tabulated figure under every documented assumption.",
    "It lies below the tabulated figure under every documented assumption.",
    "In the unit examined nothing that the evidence decides falls short: 1 point meets its "
    "tabulated figure.",
    "In the unit examined nothing that the evidence decides falls short: {count} points meet their "
    "tabulated figure.",
    "In the unit examined the only point that the evidence decides falls short of its tabulated "
    "figure: {points}.",
    "In the unit examined 1 of the {decided} points that the evidence decides falls short of its "
    "tabulated figure: {points}.",
    "In the unit examined {count} of the {decided} points that the evidence decides fall short of "
    "their tabulated figure: {points}.",
    "In the unit examined {count} of the {decided} points that the evidence decides fall short of "
    "their tabulated figure: {points}, and {more} more.",
    "1 question stays open",
    "{count} questions stay open",
    "{distance} between mains side and output",
    "{distance} between mains side and the outside of the case",
    "{inner} to {outer}, layer {place}",
    "{inner} to {outer}, layers {places}",
    "the tabulated figure is {required}",
    "the highest allowed value is {required}",
    "{name}, {value} where {required} is tabulated, if a part moved",
    "{name}, {value} where {required} is tabulated",
    "{name}, {value} where {required} is the most",
)
DREW = "The unit examined drew {current} at full load; the plate prints {printed}"
CHECKS = (
    "So far the rulebook assumes {value}.",
    "So far it is known as {value}.",
    "The list follows the rules for a source of {power}: {offered}.",
    f"{DREW}. That was at less than the claimed power.",
    f"{DREW}, and 10 % more are allowed. At a lower mains voltage it draws more.",
    f"{DREW}. More than 10 % above it, but at which load was not recorded.",
    f"{DREW}. That is more than 10 % above it, at no more than the claimed power.",
    f"{DREW}. More than 10 % above it, but with a load above the claimed power.",
)
ACCOUNTS = (
    *(f"{browser} on {{system}}" for browser in ("Edge", "Opera", "Firefox", "Chromium or Chrome",
                                                 "Safari")),
    *(f"{{user}}, {role}" for role in ("contributor", "reviewer", "moderator", "administrator")),
)
REVIEWS = tuple(f"{who} {did}" for who in ("You", "{name}")
                for did in ("confirmed it", "disputed it", "measured it anew"))
BOARDS = (
    "{part} marked {marking} in both.",
    "{part} marked: {marking} {here}, {other} {there}.",
    "{about}: {ours} here, {theirs} there.",
    "sense resistor",
)
TOLD = ("by {person}, on “{thing}”", "{value} at {voltage}", "{was}, now {now}",
        "{person}, for {time}", "Measured on a load, {units}")
SCENARIOS = (
    "the reading is {least} or more of the requirement under the most lenient assumptions",
    "the reading is less than {most} of the requirement under the most lenient assumptions",
    "the reading is {least} or more and less than {most} of the requirement under the most lenient "
    "assumptions",
    "falls short between mains side and output",
    "falls short between mains side and the outside of the case",
    "{scenario}: severity 1 to 4 across.",
    "Solid frame: this scenario; dashed: one band more and one less probable.",
    "S serious, H high, M medium, L low; the letters are from memory.",
)
BENCH = ("Add {lower}", "“{text}”: {question}", "“{one}” and “{other}”: {question}")
RECORDS = (
    "sha256 {digits}",
    "assumed, the plate’s range is not recorded",
    "What each input adds to the standard uncertainty of the result, in {unit}, k = 1. "
    "Contributions add as squares.",
    "{first} to {last}: {inner} to {outer}",
    "English", "Deutsch", "decibans",
    *(f"{inner} to {outer}" for inner, outer in permutations(
        ("primary", "secondary", "auxiliary", "shield", "core"), 2)),
)
READING = (
    "no {size}", "at {mains}",
    *(f"{{units}} {lack}" for lack in (
        "was not weighed without cable", "were not weighed without cable", "had no power measured",
        "states no power", "state no power", "has no capability worked out",
        "have no capability worked out", "has no bulk capacitance recorded",
        "have no bulk capacitance recorded", "has no distance across the barrier measured",
        "have no distance across the barrier measured")),
)
# Single words, which are texts where pages explain them.
TRADE = ("plausibility", "90 % interval", "median", "deciban", "saturation", "ripple", "regulation",
         "rms", "transient", "triple-insulated", "bobbin")
COMPOSED = (READING + RECORDS + BENCH + REVIEWS + BOARDS + TOLD + SCENARIOS + JOINTS + FINDINGS
            + SAFETY + CHECKS + ACCOUNTS + TRADE)
