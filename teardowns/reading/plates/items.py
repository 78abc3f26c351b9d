"""Numbers that belong together become one quantity: 100-240V, 5V/9V/12V, 3/2/1.5A, 50/60 Hz."""

from __future__ import annotations

from dataclasses import dataclass, replace

from teardowns.reading.plates.tokens import Token

Part = tuple[float, float]  # (low, high) in SI, equal for a single value


@dataclass(frozen=True, slots=True)
class Item:
    """One thing on the plate, in reading order.

    `parts` are the values of a quantity; empty where the print is ambiguous, and then `question`
    says why.
    """

    kind: str  # volt, ampere, watt, voltampere, hertz, loose, or a token kind
    start: int
    end: int
    line: int
    value: str = ""
    parts: tuple[Part, ...] = ()
    joined: str = ""  # the sign between list members: "/", ",", "+" or ""
    question: str = ""


_KINDS = {"V": ("volt", 0), "A": ("ampere", 0), "mA": ("ampere", -3), "W": ("watt", 0),
          "VA": ("voltampere", 0), "Hz": ("hertz", 0), "kHz": ("hertz", 3)}  # fmt: skip
_LIST_SIGNS = frozenset("/,+|&")
_RANGE_SIGNS = frozenset("-—~")
_USUAL_VOLTS = frozenset((5, 9, 12, 15, 20, 24))
_LONGEST = 12  # members of one list
QUANTITIES = frozenset(("volt", "ampere", "watt", "voltampere", "hertz"))


def items_of(tokens: list[Token]) -> list[Item]:
    items: list[Item] = []
    at = 0
    while at < len(tokens):
        if tokens[at].kind in ("number", "confused"):
            item, at = _quantity(tokens, at)
        elif tokens[at].kind == "port":
            item, at = _ports(tokens, at)
        else:
            token = tokens[at]
            item, at = Item(token.kind, token.start, token.end, token.line, token.value), at + 1
        items.append(item)
    return items


@dataclass(frozen=True, slots=True)
class _Member:
    token: Token
    unit: str | None
    end: int  # offset behind number and unit
    after: int  # index of the token behind them
    sign: str = ""  # what stands between the previous member and this one


def _quantity(tokens: list[Token], at: int) -> tuple[Item, int]:
    members = [_member(tokens, at)]
    while len(members) < _LONGEST:
        following = _next_member(tokens, members)
        if following is None:
            break
        members.append(following)
    while members and members[-1].unit is None and len(members) > 1:
        members.pop()  # a tail without a unit does not belong to this quantity
    return _item(members), members[-1].after


def _member(tokens: list[Token], at: int, sign: str = "") -> _Member:
    unit = tokens[at + 1] if at + 1 < len(tokens) and tokens[at + 1].kind == "unit" else None
    if unit is None:
        return _Member(tokens[at], None, tokens[at].end, at + 1, sign)
    return _Member(tokens[at], unit.value, unit.end, at + 2, sign)


def _next_member(tokens: list[Token], members: list[_Member]) -> _Member | None:
    """The next number of the same list or range, or None where something else begins."""
    last = members[-1]
    if last.after + 1 >= len(tokens) or tokens[last.after + 1].kind not in ("number", "confused"):
        return None
    sign = _joining_sign(tokens[last.after])
    if sign is None:
        return None
    following = _member(tokens, last.after + 1, sign)
    if last.unit is None:
        return following
    return following if following.unit == last.unit else None


def _joining_sign(token: Token) -> str | None:
    if token.kind == "to" or (token.kind == "dashes" and token.value in ("...", "…")):
        return "-"
    if token.kind == "joint":
        return "/"
    if token.kind != "sign":
        return None
    if token.value in _RANGE_SIGNS:
        return "-"
    return token.value if token.value in _LIST_SIGNS else None


def _item(members: list[_Member]) -> Item:
    first, last = members[0], members[-1]
    kind, power = _KINDS[last.unit] if last.unit else ("loose", 0)
    question = _doubt(members, kind)
    parts = () if question or kind == "loose" else _parts(members, power)
    if not question and kind != "loose" and not parts:
        question = "ranges and lists are mixed in a way that cannot be told apart"
    joined = next((m.sign for m in members[1:] if m.sign != "-"), "")
    return Item(kind, first.token.start, last.end, first.token.line, "", parts, joined, question)


def _parts(members: list[_Member], power: int) -> tuple[Part, ...]:
    """(low, high) of each list member; empty where three numbers are chained by dashes."""
    parts: list[list[float]] = []
    for member in members:
        value = float(f"{member.token.value.replace(',', '.')}e{power}")
        if member.sign == "-":
            parts[-1].append(value)
        else:
            parts.append([value])
    if any(len(part) > 2 for part in parts):
        return ()
    return tuple((min(part), max(part)) for part in parts)


def _doubt(members: list[_Member], kind: str) -> str:
    """Why a number can be read in two ways, or an empty string."""
    for member in members:
        text = member.token.value
        if member.token.kind == "confused":
            digits = text.translate(str.maketrans("OoIl", "0011"))
            return f"“{text}” has a letter where a digit is expected: is it {digits}?"
        whole, comma, decimals = text.partition(",")
        if comma and len(decimals) == 3 and whole not in ("", "0") and len(whole) <= 3:
            return f"“{text}” is {whole}{decimals} or {whole}.{decimals}: which one is meant?"
        if comma and kind == "volt" and _is_two_volts(whole, decimals):
            return f"“{text}” is {whole} V and {decimals} V, or {whole}.{decimals} V: which?"
    return ""


def _is_two_volts(whole: str, decimals: str) -> bool:
    return (
        whole.isdigit() and int(whole) in _USUAL_VOLTS and int(decimals) in _USUAL_VOLTS
        and int(whole) < int(decimals)
    )  # fmt: skip


def _ports(tokens: list[Token], at: int) -> tuple[Item, int]:
    """USB-C1+A, C1/C2: ports named together. `joined` keeps the sign, `value` their names."""
    names, joined, last = [tokens[at].value], "", at
    while last + 2 < len(tokens) and len(names) < _LONGEST:
        sign, following = tokens[last + 1], tokens[last + 2]
        known = sign.kind == "joint" or (sign.kind == "sign" and sign.value in "+/&,")
        if not known or following.kind != "port":
            break
        joined = joined or ("+" if sign.value in ("+", "&") else "/")
        names.append(following.value)
        last += 2
    first = tokens[at]
    item = Item("port", first.start, tokens[last].end, first.line, "\n".join(names))
    return replace(item, joined=joined), last + 1
