"""Alice at one of her logs: the forms she sends, the page that follows."""
import html
import re

from teardowns.logs.conditions import Conditions
from teardowns.logs.layout import Layout, LogColumn
from tests.recordings import lay_out, read_whole, take_in

HELD = Layout("utf-8", ",", ".", 2, (
    LogColumn(0, "t (s)", "time", "s"), LogColumn(1, "U (V)", "output_voltage", "V"),
    LogColumn(2, "I (A)", "output_current", "A"), LogColumn(3, "Operator")))
BENCH = Conditions(set_voltage=5.0, mains_voltage=230.0, mains_frequency=50.0)


def text_of(response):
    return html.unescape(response.content.decode())


def address_of(recording, more=""):
    return f"/bench/{recording.unit_id}/recordings/{recording.key}/{more}"


def public(recording, more=""):
    return f"/units/{recording.unit_id}/recordings/{recording.key}/{more}"


def hidden(page, name):
    """The value of a hidden input of the page, the first of that name."""
    return re.search(f'<input type="hidden" name="{name}" value="([^"]*)"', page)[1]


def sender(client, recording):
    """Sends one of the forms of the bench page; the page that follows, as text."""
    def sent(act, **fields):
        fields.setdefault("seen", str(recording.unit.recordings.get(pk=recording.pk).version))
        response = client.post(address_of(recording), {"act": act} | {
            name.replace("_end", "-end").replace("_start", "-start"): value
            for name, value in fields.items()}, follow=True)
        assert response.status_code == 200
        return text_of(response)
    return sent


def held_log(folder, name="held.csv", amperes=2.0):
    """A minute without load, then half an hour of 5 V and 2 A, with what is nobody's business."""
    path = folder / name
    path.write_text("t (s),U (V),I (A),Operator\n" + "".join(
        f"{t},{5.00 + 0.001 * (t // 5 % 2):.3f},"
        f"{(amperes + 0.001 * (t // 5 % 3)) * (60 <= t < 1900):.3f},Q. Privately\n"
        for t in range(0, 2000, 5)), "utf-8")
    return path


def held(alice, unit, folder, amperes=2.0, name="held.csv", **about):
    """That log, read to its end."""
    taken = take_in(alice, unit, held_log(folder, name, amperes), "load_sweep", **about)
    return read_whole(lay_out(alice, taken, HELD, BENCH, "load_sweep"))
