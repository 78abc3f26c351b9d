"""Names of files, and texts, that somebody might send who wants more than to name a thing."""
from .comments import HOSTILE

NAMES = (
    "../../../etc/passwd", "..\\..\\boot.ini", "/etc/shadow", "C:\\windows\\win.ini", "....//a.jpg",
    "a\0.jpg", "a.jpg\0.php", "a\r\nX-Injected: yes.jpg", "a\nb.jpg", "gpj.\u202eexe",
    "\u2066a.jpg", "a\u200b.jpg", "A" * 300 + ".jpg", "ü" * 200, ".htaccess", ".user.ini",
    "web.config", "a.php", "a.php.jpg", "a.jpg.php", "a.phtml", "a.svg", "a.html", "a'b\"c.jpg",
    "a\"; filename=\"b.php",
    "{{ 7*7 }}.jpg", "{% include 'x' %}.jpg", "%s%s%n.jpg", "${jndi:x}.jpg", "$(id).jpg",
    "`id`.jpg", "|id", ";id;.jpg", "&& id.jpg", "-rf.jpg", "--help", "=1+1.csv", "+1.csv",
    "@SUM(A1).csv", "con", "nul.jpg", "aux.csv", "a:b.jpg", "a::$DATA", "a.jpg ", " .jpg", ".",
    "..", "", " ", "~root",
    "*?.jpg", "<script>alert(1)</script>.jpg", "<img src=x onerror=alert(1)>.jpg", "a&amp;b.jpg",
    "%2e%2e%2f.jpg", "%00.jpg", "é" + "\u0301" * 60 + ".jpg", "😀.jpg", "日本語.jpg",
    "می\u200cخواهم.jpg", "\ufeffa.jpg", "\U000e0041\U000e0042.jpg", "\ufffe.jpg",
    "\x7f\x1b[31m.jpg", "a\tb.jpg",
)
TEXTS = (
    *HOSTILE, "\0", "a\0b", "\ud800", "\udfff\ud800", "\u202eabc", "\u2066\u2067\u2068", "\ufeff",
    "Z\u0341\u0317" * 500, "a" * 100_000, "漢" * 20_000, "\u200d" * 900, "می\u200cخواهم",
    "👩\u200d🔬", "\U000e0041" * 300, "ﷺ" * 2_000, "İ" * 2_000, "ẞß" * 900, "1" * 5_000,
    "\n" * 5_000, "' OR '1'='1", "'; DROP TABLE x; --", "\\u0000", "%00", "{{ 7*7 }}",
    "{0.__class__}", "%(a)s", "${7*7}", "$(id)", "../../etc/passwd", "=cmd|' /C calc'!A0",
    "@SUM(1)", "\t=1+1", "(?:a+)+$", "[" * 10_000, ">" * 5_000, "*" * 9_999, "`" * 9_999,
    "[a](" * 2_000, "- " * 4_000,
)
