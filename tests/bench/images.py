"""Time and memory of a photo's derivatives: a 24 Mpx JPEG, beside plain Pillow for the same sizes.

python -m tests.bench.images [FILE, default a drawn picture of 6000 × 4000 px]
"""
import json
import os
import resource
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from teardowns.imaging.derive import derive

SECONDS, MEGABYTES, RATIO, PARENT = 3.0, 250, 1.5, 400      # bars
RUNS = 3

# As sharp and noisy as a camera's: about 6 MB at quality 90. Drawn in a process of its own, so
# that its memory does not count.
DRAW = """
import sys, numpy
from PIL import Image
draw = numpy.random.default_rng(3)
width, height = 6000, 4000
picture = numpy.full((height, width, 3), 128, numpy.float32)
for across, swing in ((12, 60), (60, 40), (300, 20), (1500, 12)):
    for channel in range(3):
        coarse = draw.normal(0, swing, (across * 2 // 3, across)).astype(numpy.float32)
        picture[..., channel] += numpy.asarray(Image.fromarray(coarse).resize((width, height)))
picture += draw.normal(0, 3, (height, width, 1)).astype(numpy.float32)
exif = Image.Exif()
exif[0x112] = 6
image = Image.fromarray(picture.clip(0, 255).astype(numpy.uint8))
image.save(sys.argv[1], "JPEG", quality=90, exif=exif)
"""
PLAIN = """
import io, json, sys, time
from PIL import Image, ImageOps
def work(encode):
    start = time.perf_counter()
    image = ImageOps.exif_transpose(Image.open(sys.argv[1])).convert("RGB")
    for size in json.loads(sys.argv[2]):
        small = image.resize(size, Image.Resampling.BICUBIC)
        if encode:
            small.save(io.BytesIO(), "WEBP", quality=80)
    return time.perf_counter() - start
print(json.dumps([work(False), work(True)]))
"""


def main(arguments):
    if arguments:
        sys.exit(measured(Path(arguments[0])))
    with tempfile.TemporaryDirectory() as folder:
        path = str(Path(folder) / "picture.jpg")
        subprocess.run([sys.executable, "-c", DRAW, path], check=True)
        # Measured in a process of its own: the kernel keeps one peak for all children.
        again = subprocess.run([sys.executable, "-m", "tests.bench.images", path])
    sys.exit(again.returncode)


def measured(path):
    load = os.getloadavg()[0]
    with tempfile.TemporaryDirectory() as folder:
        times, derived = zip(*(timed(path, folder) for _ in range(RUNS)), strict=True)
    used = resource.getrusage(resource.RUSAGE_CHILDREN)
    sizes = [(file.width, file.height) for file in derived[0].files]
    resized, encoded = plain(path, sizes)
    took, child = sorted(times)[RUNS // 2], used.ru_maxrss / 1024
    own = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    print(f"{derived[0].walk.width} × {derived[0].walk.height} px to "
          f"{', '.join(f'{w} × {h}' for w, h in sizes)}; load {load:.1f} before the run")
    print(f"all derivatives     {took:6.2f} s    bar {SECONDS} s; median of {RUNS}, "
          f"{min(times):.2f} to {max(times):.2f}")
    print(f"  processor time    {(used.ru_utime + used.ru_stime) / RUNS:6.2f} s")
    print(f"child at its peak   {child:6.0f} MB   bar {MEGABYTES} MB")
    print(f"parent at its peak  {own:6.0f} MB   bar {PARENT} MB")
    print(f"plain Pillow        {encoded:6.2f} s    decode, each size from the full one, encode")
    print(f"  without encoding  {resized:6.2f} s")
    print(f"ratio to plain      {took / encoded:6.2f}      bar {RATIO}; to plain without encoding "
          f"{took / resized:.2f}")
    return took > SECONDS or child > MEGABYTES or own > PARENT or took / encoded > RATIO


def timed(path, folder):
    start = time.perf_counter()
    derived = derive(path, Path(folder))
    return time.perf_counter() - start, derived


def plain(path, sizes):
    done = subprocess.run([sys.executable, "-c", PLAIN, str(path), json.dumps(sizes)],
                          check=True, capture_output=True)
    return json.loads(done.stdout)


if __name__ == "__main__":
    main(sys.argv[1:])
