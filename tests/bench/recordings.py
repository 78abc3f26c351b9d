"""Time and memory of a log from text to chart, beside pandas reading the same file.

python -m tests.bench.recordings [rows, default 1000000] [most rows, default 10000000]
"""
import json
import os
import random
import re
import statistics
import subprocess
import sys
import tempfile
import time
from dataclasses import replace
from functools import partial
from pathlib import Path

from teardowns.logs.channel_files import finish, open_channels
from teardowns.logs.detect import detect_layout
from teardowns.logs.limits import MOST_BYTES
from teardowns.logs.reading import read_slice
from teardowns.logs.text_encoding import HEAD
from teardowns.logs.windows import rows_between, windows

SECONDS, WINDOW, MEGABYTES = 4.0, 0.060, 300      # bars
BUCKETS, SPANS = 800, 15
DIALECTS = {"comma and point": (",", "."), "semicolon and comma": (";", ",")}
HEADING = ("Time (s)", "Voltage (V)", "Current (A)")


def main(arguments):
    if arguments[:1] == ["--child"]:
        sys.exit(child(Path(arguments[1])))
    rows, most = [int(word) for word in (*arguments, "1000000", "10000000")[:2]]
    print(f"{rows} rows of 3 columns; load {os.getloadavg()[0]:.1f} of {os.cpu_count()} processors")
    with tempfile.TemporaryDirectory() as folder:
        missed = [dialect(name, *marks, rows, Path(folder)) for name, marks in DIALECTS.items()]
        missed.append(long_log(most, Path(folder)))
    print("bars:", "missed" if any(missed) else "met")
    sys.exit(1 if any(missed) else 0)


def dialect(name, separator, decimal, rows, folder):
    path = folder / "log.csv"
    write(path, rows, separator, decimal)
    took, spent, channels = timed(partial(imported, path, folder / name))
    slowest, median = query_times(channels)
    print(f"{name}: {path.stat().st_size / 1e6:.1f} MB")
    print(f"  to first chart    {took:6.2f} s    bar {SECONDS} s; {spent:.2f} s of processor")
    print(f"  a window          {median * 1e3:6.1f} ms   bar {WINDOW * 1e3:.0f} ms; slowest of "
          f"{SPANS} {slowest * 1e3:.1f} ms, two channels at {BUCKETS} buckets")
    beside_pandas(path, separator, decimal, took)
    return took > SECONDS or median > WINDOW


def write(path, rows, separator, decimal):
    """Time in whole seconds and two columns of three decimals, a different pair in each row."""
    draw = random.Random(6)
    tails = [separator.join(("", f"{draw.gauss(5.1, 0.02):.3f}", f"{draw.uniform(1, 2):.3f}\n"))
             .replace(".", decimal) for _ in range(65_536)]
    with path.open("w") as file:
        file.write(separator.join(HEADING) + "\n")
        for start in range(0, rows, len(tails)):
            file.write("".join(f"{row}{tails[row - start]}"
                               for row in range(start, min(start + len(tails), rows))))


def imported(path, folder):
    """What the site does with a log: a proposal, slices, files, the first chart."""
    size, progress = path.stat().st_size, None
    with path.open("rb") as source:
        layout = detect_layout(source.read(HEAD)).layout
        wanted = replace(layout, decimal="," if layout.separator == ";" else ".", thousands="")
        while not (progress and progress.finished):
            progress = read_slice(source, size, wanted, progress, folder)
    finish(folder, wanted)
    channels = open_channels(folder, wanted)
    query(channels, 0.0, 1.0)
    return channels


def query(channels, start, end):
    """A window between two shares of the log."""
    last = channels.time[-1]
    rows = rows_between(channels.time, start * last, end * last)
    return windows(channels.time, tuple(c.values for c in channels.channels), rows, BUCKETS)


def query_times(channels):
    times = [timed(partial(query, channels, k / (2 * SPANS), 1 - k / (2 * SPANS)))[0]
             for k in range(SPANS)]
    return max(times), statistics.median(times)


def timed(work):
    start, spent = time.perf_counter(), time.process_time()
    result = work()
    return time.perf_counter() - start, time.process_time() - spent, result


def beside_pandas(path, separator, decimal, took):
    try:
        import pandas
    except ImportError:
        print("  pandas is not installed: no ratio")
        return
    plain = statistics.median(timed(partial(pandas.read_csv, path, sep=separator,
                                            decimal=decimal))[0] for _ in range(3))
    print(f"  ratio to pandas   {took / plain:6.1f}      which reads it in {plain:.2f} s, "
          "unchecked and into memory")


def long_log(rows, folder):
    path = folder / "long.csv"
    write(path, rows, ",", ".")
    size = path.stat().st_size
    done = subprocess.run([sys.executable, "-m", "tests.bench.recordings", "--child", str(path)],
                          check=True, capture_output=True, text=True)
    told = json.loads(done.stdout)
    print(f"{told['rows']} rows, {size / 1e6:.1f} MB of at most {MOST_BYTES / 1e6:.0f}")
    print(f"  to first chart    {told['took']:6.2f} s")
    print(f"  a window          {told['window'] * 1e3:6.1f} ms   of the whole log")
    print(f"  resident          {told['peak']:6.0f} MB   bar {MEGABYTES} MB at the peak, mapped "
          f"files included; {told['before']:.0f} MB before")
    return told["peak"] > MEGABYTES or told["rows"] != rows


def child(path):
    before = peak_megabytes()
    took, _, channels = timed(partial(imported, path, path.parent / "long"))
    print(json.dumps({"rows": len(channels.time), "took": took, "before": before,
                      "window": timed(partial(query, channels, 0.0, 1.0))[0],
                      "peak": peak_megabytes()}))
    return 0


def peak_megabytes():
    """Of this program alone: what getrusage tells begins with the parent's size."""
    status = Path("/proc/self/status").read_text()
    return int(re.search(r"VmHWM:\s*(\d+) kB", status)[1]) / 1024


if __name__ == "__main__":
    main(sys.argv[1:])
