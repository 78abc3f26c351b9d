"""A unit's page with 60 photos, and a web process that takes in ten of 24 Mpx, in Chromium.

python -m tests.bench.unit_photos
"""
import os
import re
import shutil
import subprocess
import sys
import tempfile
import time
import urllib.request
import uuid
from contextlib import contextmanager
from http.cookiejar import CookieJar
from pathlib import Path

from playwright.sync_api import sync_playwright

from tests.bench.images import DRAW

PHOTOS, LARGE = 60, 10
SHIFT, BYTES, MEGABYTES = 0.01, 1e6, 400        # bars
ROOT = Path(__file__).resolve().parent.parent.parent
SCREENS = {"desk": {"viewport": {"width": 1280, "height": 900}},
           "phone": {"viewport": {"width": 360, "height": 740}, "device_scale_factor": 3,
                     "has_touch": True, "is_mobile": True}}
SECRET = uuid.uuid4().hex * 2
PASSWORD = "a-word-of-the-bench"

# The unit, its photos through the front door of the site, and a draft to send large ones to.
FILL = f"""
import json, sys
from pathlib import Path
from core.accounts.models import User
from teardowns.exchange.document import read_document
from teardowns.models import Status, Unit
from teardowns.services.assess_units import assess_units
from teardowns.services.import_unit import import_unit
from teardowns.services.receive_photo import receive_photo
author = User.objects.create_user("bench", password="{PASSWORD}")
document = read_document(json.loads(Path("fixtures/units/20-hurdlop-turbo45.json").read_text()))
unit = import_unit(document, author, Status.DRAFT)
assess_units([unit])
for path in sorted(Path(sys.argv[1]).glob("small-*.jpg")):
    receive_photo(contributor=author, unit_pk=unit.pk, name=path.name, path=path,
                  stage="component_side")
Unit.objects.filter(pk=unit.pk).update(status=Status.PUBLISHED)
print(unit.pk, Unit.objects.create(contributor=author, title="Bench").pk)
"""
WATCH = """
window.shifted = 0;
new PerformanceObserver((list) => {
  for (const entry of list.getEntries()) window.shifted += entry.value;
}).observe({ type: "layout-shift", buffered: true });
"""
LOADED = """() => performance.getEntriesByType("resource")
  .filter((each) => each.initiatorType === "img").map((each) => each.encodedBodySize)"""
ALL_SHOWN = """() => [...document.querySelectorAll(".gallery img")]
  .every((each) => each.complete && each.naturalWidth)"""
PAINTED = """() => performance.getEntriesByName("first-contentful-paint")[0]?.startTime ?? NaN"""


def main():
    load = os.getloadavg()[0]
    with tempfile.TemporaryDirectory() as folder, site(Path(folder)) as (address, pid, unit, draft):
        print(f"{PHOTOS} photos on a unit's page; load {load:.1f} before the run")
        missed = looked_at(f"{address}/units/{unit}/")
        missed |= sent(address, draft, pid, Path(folder))
    return int(missed)


@contextmanager
def site(folder):
    """A server with one web process, its process id and the two units."""
    draw(folder)
    (folder / "data").mkdir()
    port = "8497"
    env = os.environ | {"UNDERPLATE_DATA_DIR": str(folder / "data"), "SECRET_KEY": SECRET,
                        "DATABASE_URL": f"sqlite:///{folder / 'data' / 'bench.sqlite3'}"}

    def run(*words):
        return subprocess.run([sys.executable, *words], cwd=ROOT, env=env, check=True,
                              stdout=subprocess.PIPE, text=True).stdout

    run("manage.py", "migrate", "-v0")
    run("manage.py", "collectstatic", "--noinput", "-v0")
    fill = f"import os, django; os.environ['DJANGO_SETTINGS_MODULE'] = 'core.settings'; " \
           f"django.setup()\n{FILL}"
    unit, draft = run("-c", fill, str(folder)).split()
    server = subprocess.Popen([sys.executable, "-m", "gunicorn", "core.wsgi", "--workers", "1",
                               "--threads", "4", "--timeout", "120", "--bind",
                               f"127.0.0.1:{port}", "--log-level", "error"], cwd=ROOT, env=env)
    try:
        answered(f"http://127.0.0.1:{port}/")
        yield f"http://127.0.0.1:{port}", worker_of(server.pid), unit, draft
    finally:
        server.terminate()
        server.wait()


def draw(folder):
    """One picture of 24 Mpx, as often as it is sent: a comment makes each file its own."""
    path = folder / "picture.jpg"
    subprocess.run([sys.executable, "-c", DRAW, str(path)], check=True)
    small = folder / "small.jpg"
    subprocess.run([sys.executable, "-c", "import sys; from PIL import Image; "
                    "Image.open(sys.argv[1]).resize((2400, 1600)).save(sys.argv[2], quality=90)",
                    str(path), str(small)], check=True)
    for name, source, count in (("small", small, PHOTOS), ("large", path, LARGE)):
        content = source.read_bytes()
        for i in range(count):
            comment = b"\xff\xfe\x00\x06%04d" % i
            (folder / f"{name}-{i:02}.jpg").write_bytes(content[:2] + comment + content[2:])


def answered(address):
    for _ in range(100):
        try:
            return urllib.request.urlopen(address).read()
        except OSError:
            time.sleep(0.2)
    raise SystemExit(f"No answer from {address}")


def worker_of(pid):
    return int(Path(f"/proc/{pid}/task/{pid}/children").read_text().split()[0])


def looked_at(address):
    chromium = shutil.which("chromium") or shutil.which("chromium-browser")
    missed = False
    with sync_playwright() as driver:
        browser = driver.chromium.launch(executable_path=chromium, args=["--no-sandbox"])
        for name, screen in SCREENS.items():
            lazy, eager = (visit(browser, screen, address, lazy) for lazy in (True, False))
            print(f"{name:6} layout shift {lazy['first']:.4f} at first, {lazy['shift']:.4f} after "
                  f"scrolling to the end   bar {SHIFT}; first paint {lazy['painted']:.0f} ms")
            print(f"{'':6} pictures {lazy['bytes'] / 1e6:5.2f} MB in {lazy['files']} before "
                  f"scrolling   bar {BYTES / 1e6:.0f} MB; without lazy loading "
                  f"{eager['bytes'] / 1e6:.2f} MB in {eager['files']}, ratio "
                  f"{lazy['bytes'] / eager['bytes']:.3f}")
            there = led_to_photos(browser, screen, address)
            print(f"{'':6} led straight to the photos: {there / 1e6:.2f} MB   bar "
                  f"{BYTES / 1e6:.0f} MB")
            missed |= max(lazy["first"], lazy["shift"]) > SHIFT
            missed |= max(lazy["bytes"], there) > BYTES
        browser.close()
    return missed


def visit(browser, screen, address, is_lazy):
    context = browser.new_context(**screen)
    page = context.new_page()
    page.add_init_script(WATCH)
    if not is_lazy:
        page.route(address, without_lazy)
    page.goto(address, wait_until="networkidle")
    sizes, first = page.evaluate(LOADED), page.evaluate("window.shifted")
    height = page.evaluate("document.documentElement.scrollHeight")
    for y in range(0, height, 600) if is_lazy else ():
        page.evaluate("y => window.scrollTo(0, y)", y)
        page.wait_for_timeout(60)
    page.wait_for_function(ALL_SHOWN)
    shown = page.locator(".gallery img").count()
    if shown != PHOTOS:
        raise SystemExit(f"The page shows {shown} pictures instead of {PHOTOS}.")
    result = {"bytes": sum(sizes), "files": len(sizes), "first": first,
              "shift": page.evaluate("window.shifted"), "painted": page.evaluate(PAINTED)}
    context.close()
    return result


def led_to_photos(browser, screen, address):
    """Bytes of pictures where a link to them leads, before anybody scrolls."""
    context = browser.new_context(**screen)
    page = context.new_page()
    page.goto(f"{address}#photos", wait_until="networkidle")
    loaded = sum(page.evaluate(LOADED))
    context.close()
    return loaded


def without_lazy(route):
    answer = route.fetch()
    route.fulfill(response=answer, body=answer.text().replace(' loading="lazy"', ""))


def sent(address, draft, pid, folder):
    """Ten large files in one form; the memory of the web process, its children not counted."""
    opener = urllib.request.build_opener(urllib.request.HTTPCookieProcessor(CookieJar()))
    form = {"username": "bench", "password": PASSWORD}
    posted(opener, f"{address}/sign-in/", form)
    idle = memory(pid, "VmRSS")
    files = sorted(folder.glob("large-*.jpg"))
    start = time.perf_counter()
    page = posted(opener, f"{address}/bench/{draft}/photos/", {"stage": "opened"}, files)
    took = time.perf_counter() - start
    if f"{LARGE} photos kept." not in page:
        raise SystemExit("The large photos were not kept.")
    peak, size = memory(pid, "VmHWM"), sum(path.stat().st_size for path in files) / 1e6
    print(f"{LARGE} JPEGs of 24 Mpx, {size:.0f} MB, in one form: {took:.1f} s")
    print(f"web process at its peak {peak:.0f} MB   bar {MEGABYTES} MB; idle {idle:.0f} MB, ratio "
          f"{peak / idle:.2f}")
    return peak > MEGABYTES


def posted(opener, address, fields, files=()):
    page = opener.open(address).read().decode()
    token = re.search(r'name="csrfmiddlewaretoken" value="([^"]+)"', page)[1]
    edge = uuid.uuid4().hex
    said = {"csrfmiddlewaretoken": token} | fields
    parts = [f'--{edge}\r\nContent-Disposition: form-data; name="{name}"\r\n\r\n'
             f"{value}\r\n".encode() for name, value in said.items()]
    for path in files:
        parts += [f'--{edge}\r\nContent-Disposition: form-data; name="photos"; '
                  f'filename="{path.name}"\r\nContent-Type: image/jpeg\r\n\r\n'.encode(),
                  path.read_bytes(), b"\r\n"]
    body = b"".join([*parts, f"--{edge}--\r\n".encode()])
    ask = urllib.request.Request(address, body, {
        "Content-Type": f"multipart/form-data; boundary={edge}", "Referer": address})
    return opener.open(ask).read().decode()


def memory(pid, what):
    """A line of the kernel's account of a process. [MB]"""
    status = Path(f"/proc/{pid}/status").read_text()
    return int(re.search(rf"{what}:\s+(\d+) kB", status)[1]) / 1024


if __name__ == "__main__":
    sys.exit(main())
