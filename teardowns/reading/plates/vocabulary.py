"""The words and signs a plate is made of: one table of patterns, tried where a word begins.

Symbols by number: class II IEC 60417-5172, d.c. 5031, a.c. 5032, indoor use 5957; the crossed-out
wheeled bin is EN 50419. Words in other languages, and the look-alikes, are common practice.
"""

from __future__ import annotations

import re

_END = r"(?![A-Za-z])"
# Not inside a longer name either: the CE of a model CE-65W is no mark.
_WORD_END = r"(?![A-Za-z0-9]|-[A-Za-z0-9])"
_NOT_A_NUMBER = r"(?![0-9]|[.,][0-9]| ?(?:m ?A|[VAW]|Hz)(?![A-Za-z]))"

_BEFORE_WATTS = r"(?= ?\(?[0-9]+(?:[.,][0-9]+)? ?W(?![A-Za-z]))"

_TYPE = r"(?:USB[- ]?)?Type[- ]?"
_USB_PD = r"(?:USB[- ]?)?PD|Power Delivery"
_VERSION_END = r"(?!\.?[0-9]| ?[VAW])"
_LEVEL = r"(?:(?:energy )?efficiency )?level ?[:-]? ?"
_NUMBERED = r"(?: ?([1-9](?: ?[-/,&] ?[1-9])?)(?= ?:))?"
_NOT_A_NAME = r"(?![A-Za-z]|-[A-Za-z0-9])"  # the PD of a model PD-30C is no protocol
_CLASS = r"(?:protection )?class"
_PROTECTS = r"(?:[- ]protect(?:ion|ed)|[- ]proof)"
_OVERHEAT = r"over[- ]?(?:temp(?:erature)?|heat(?:ing)?)"
_QUICK = r"(?:(?:ultra|super|fast|quick|rapid|turbo)[- ]?){0,2}"

# (kind, payload, pattern); the first that matches wins. {1}, {2} in a payload are its groups.
_WORDS = (
    # what the numbers after it are
    ("total", "", rf"(?i:(?:max\.? |maximum )?total(?: output)?(?: power)?|combined){_END}|总功率"),
    ("total", "", r"(?i:(?:rated |max\.? |maximum |output )?power)(?= ?[:=])"),
    ("input", "", rf"(?i:(?:rated )?input{_END}|I/P{_END}|(?:IN|PRI)(?= ?:))"),
    ("input", "", rf"(?i:Eingang|Entr[ée]e|Entrada|Ingresso){_END}|输入|輸入|入力|Bxoд"),
    ("output", "{1}", rf"(?i:(?:rated )?outputs?{_END}|OUT(?= ?[0-9]? ?:)){_NUMBERED}"),
    ("output", "", rf"(?i:O/P|Ausgang|Sortie|Salida|Sa[íi]da|Uscita){_END}|SEC(?= ?:)"),
    ("output", "", r"输出|輸出|出力|Bыxoд"),
    # ports
    ("port", "USB-{1}{2}", rf"(?i:{_TYPE}([ACB])-?([1-9])?){_WORD_END}{_NOT_A_NUMBER}"),
    ("port", "USB-{1}", rf"(?i:{_TYPE}([ACB])){_END}"),
    ("port", "USB-{1}{2}", rf"(?i:USB[- ]?([ACB])-?([1-9])?){_WORD_END}{_NOT_A_NUMBER}"),
    ("port", "USB-{1}", rf"(?i:USB[- ]?([ACB])){_END}"),
    ("port", "USB{1}", rf"(?i:USB-?([1-9])){_WORD_END}{_NOT_A_NUMBER}"),
    ("port", "USB{1}", r"(?i:USB) ([1-9])(?= ?:)"),
    ("port", "port {1}", rf"(?i:port) ?([1-9]){_WORD_END}{_NOT_A_NUMBER}"),
    ("port", "USB-{1}{2}", rf"([AC])([1-4]){_WORD_END}{_NOT_A_NUMBER}"),
    ("port", "USB-{1}", r"([AC])(?= ?[:+])"),
    ("port", "USB-{1}", rf"(?<=\+)([AC]){_WORD_END}"),
    ("port", "USB-{1}", rf"(?:(?<=[+(/])|(?<=[+/] ))([AC]){_BEFORE_WATTS}"),
    # protocols
    ("protocol", "PD|{1}", rf"(?i:{_USB_PD})(?: ?([23]\.[0-9]){_VERSION_END})?{_NOT_A_NAME}"),
    ("protocol", "{1}|", rf"(PPS|AVS|EPR|UFCS|DCP){_NOT_A_NAME}"),
    ("protocol", "QC|{1}", rf"QC(?: ?([2-5](?:\.[0-9]|\+)?){_VERSION_END})?{_NOT_A_NAME}"),
    ("protocol", "BC|1.2", r"BC ?1\.2(?![0-9])"),
    ("port", "USB", rf"USB{_END}"),
    # marks
    ("mark", "class_2_supply", r"(?i:class) ?2 (?i:power|supply|transformer)s?"),
    ("question", "class_2", rf"(?i:class) ?(?:2|ll|11|lI|Il){_WORD_END}"),
    ("mark", "class_ii", rf"(?i:{_CLASS}) ?II{_WORD_END}|(?i:double[- ]insulat(?:ed|ion))"),
    ("mark", "class_i", rf"(?i:{_CLASS}) ?I{_WORD_END}"),
    ("mark", "class_ii", r"[▣⧈⊡]|(?<![\u4e00-\u9fff])回(?![\u4e00-\u9fff])"),
    ("level", "{1}", rf"(?i:{_LEVEL})\(?(VII|VI|IV|V|III|[3-7]){_WORD_END}\)?"),
    ("level", "{1}", rf"(?<![A-Za-z0-9])(VII|VI|IV|III){_WORD_END}"),
    ("mark", "indoor_use", r"[⌂🏠🏡]|室内使用|(?i:(?:for )?indoor(?: use)?(?: only)?)"),
    ("mark", "wheeled_bin", rf"🗑|WEEE{_END}|(?i:(?:crossed[- ]out )?wheel(?:ed|ie)[- ]?bin)"),
    ("mark", "wheeled_bin", r"(?i:crossed[- ]out (?:dust)?bin)"),
    ("mark", "recycling", r"[♻♲]"),
    ("mark", "standard:{1}",
     r"(?:(?:IEC|EN|UL|BS|CSA)[ /-]?){1,3} ?(6[0-9]{4}(?:-[0-9]{1,2}){0,3})(?![0-9])"),
    ("mark", "ukca", rf"(?i:UK ?CA){_WORD_END}"),
    ("mark", "fcc", rf"(?i:FCC){_WORD_END}"),
    ("mark", "rohs", rf"(?i:RoHS){_WORD_END}"),
    ("mark", "ul", rf"(?:cULus|cUL|UL){_WORD_END}"),
    ("mark", "tuv", rf"(?i:T[ÜU]V){_WORD_END}"),
    ("mark", "{1:lower}", rf"(CE|KC|GS|ETL|CCC|RCM|PSE|EAC|NOM|BIS|LPS){_WORD_END}"),
    ("mark", "reach", rf"REACH{_WORD_END}"),
    ("mark", "ip:{1}", rf"IP ?([0-6X][0-9X]){_WORD_END}"),
    ("mark", "polarity", r"[⊖⊕] ?[-—] ?[●◉⊙•] ?[-—] ?[⊖⊕]"),
    ("mark", "gan", rf"(?i:GaN)(?:\+|{_END})"),
    # safety features; a warning or an overvoltage category uses the same words without “protection”
    ("feature", "over_voltage", rf"OVP{_WORD_END}|(?i:over[- ]?voltage{_PROTECTS}){_END}"),
    ("feature", "over_current", rf"OCP{_WORD_END}|(?i:over[- ]?current{_PROTECTS}){_END}"),
    ("feature", "short_circuit", rf"(?i:short[- ]?circuit{_PROTECTS}){_END}"),
    ("feature", "over_temperature", rf"OTP{_WORD_END}|(?i:{_OVERHEAT}{_PROTECTS}){_END}"),
    ("perhaps_feature", "over_voltage", rf"(?i:over[- ]?voltage(?! ?categor)){_END}"),
    ("perhaps_feature", "over_current", rf"(?i:over[- ]?current){_END}"),
    # SCP on its own also names a charging protocol
    ("perhaps_feature", "short_circuit", rf"SCP{_WORD_END}|(?i:short[- ]?circuits?){_END}"),
    ("perhaps_feature", "over_temperature", rf"(?i:{_OVERHEAT}){_END}"),
    ("protection", "", rf"(?i:protect(?:ions?|ed|s)){_END}"),
    # words around the numbers
    ("outlet", "", rf"(?<!(?i:USB)[- ])(?i:(?:socket[- ])?outlets?|sockets?|receptacles?){_END}"),
    ("noise", "", rf"AC ?[/-] ?DC{_END}"),
    ("nature", "ac", rf"(?:AC|ac|Ac){_END}|[aA]\. ?[cC]\.?{_END}"),
    ("nature", "dc", rf"(?:DC|dc|Dc){_END}|[dD]\. ?[cC]\.?{_END}"),
    ("each", "", rf"(?i:each|per port){_END}"),
    ("shared", "", rf"(?i:shared|together|altogether){_END}"),
    ("up_to", "", rf"(?i:up to){_END}"),
    ("listing", "", rf"(?i:{_QUICK}charg(?:es?|ing|ers?)){_END}"),
    ("listing", "", rf"(?i:fast|quick|(?:power |wall |travel )?adapt[eo]r|plug|brick){_END}"),
    ("to", "", rf"(?i:to){_END}"),
    ("max", "", rf"(?i:max(?:imum)?\.?|peak){_END}|最大"),
    ("joint", "", rf"(?i:and){_END}"),
    ("noise", "", rf"(?i:switching|power|supply|rated|nominal|only|use|for|with|or|ITE){_END}"),
    ("noise", "", rf"(?i:voltage|current|frequency|ports?|of|by|the){_END}"),
)  # fmt: skip

_PATTERN = re.compile("|".join(f"(?P<k{i}>{pattern})" for i, (_, _, pattern) in enumerate(_WORDS)))
# Where each pattern's own groups begin, since they are numbered through the whole alternation.
_FIRST_GROUP = {f"k{i}": _PATTERN.groupindex[f"k{i}"] + 1 for i in range(len(_WORDS))}


def word_at(text: str, at: int) -> tuple[str, str, int] | None:
    """(kind, payload, end) of the known word that begins at `at`."""
    match = _PATTERN.match(text, at)
    if match is None or match.lastgroup is None:
        return None
    name = match.lastgroup  # the outer group closes last
    kind, payload, _ = _WORDS[int(name[1:])]
    return kind, _filled(payload, match, _FIRST_GROUP[name]), match.end()


def _filled(payload: str, match: re.Match[str], first: int) -> str:
    if "{" not in payload:
        return payload
    for number in (1, 2):
        if f"{{{number}" in payload:
            value = match[first + number - 1] or ""
            payload = payload.replace(f"{{{number}:lower}}", value.lower())
            payload = payload.replace(f"{{{number}}}", value)
    return payload.replace("USB-a", "USB-A").replace("USB-b", "USB-B").replace("USB-c", "USB-C")
