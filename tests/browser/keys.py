"""A page used with the keyboard alone: Tab to everything, arrows on the picture."""
from os.path import commonprefix

from playwright.sync_api import TimeoutError

# How many stops of the Tab key lie between the focus and what is asked for; back is negative.
AWAY = """(wanted) => {
  const target = wanted.selector ? document.querySelector(wanted.selector)
    : [...document.querySelectorAll("main a, main summary")].find((each) =>
        each.checkVisibility() && each.innerText.trim().startsWith(wanted.name));
  const stops = [...document.querySelectorAll(
    "a[href], button, input, select, textarea, summary, [tabindex='0']")];
  const passed = stops.filter((each) => each === target || each === document.activeElement
    || (each.checkVisibility() && !each.disabled && each.type !== "hidden"));
  return passed.indexOf(target) - passed.indexOf(document.activeElement);
}"""
# Where the crosshair is, and how far an arrow key moves it.
CROSS = """() => {
  const [, x, y] = /translate\\((\\S+) (\\S+)\\)/.exec(
    document.querySelector(".crosshair").getAttribute("transform"));
  const surface = document.querySelector(".photo-surface");
  return [Number(x), Number(y), Math.max(1, 1 / surface.getScreenCTM().a)];
}"""
CHOOSER = ".photo-chooser select"
ARROWS = (("ArrowLeft", "ArrowRight"), ("ArrowUp", "ArrowDown"))
MOST_SEARCHES = 10
PRESSES = 5


class Keys:
    def __init__(self, page):
        self.page = page
        self.key = page.keyboard.press

    def to_photos(self):
        self.follow("Photos")

    def send(self, files):
        # The script hides the button when it has taken the form over.
        self.page.locator(".photo-said").wait_for()
        self.go("#photo-files")
        self.chosen().set_files(files)

    def chosen(self):
        """The browser's own window of files. It comes on a key press that follows others at once
        only sometimes, as for a person in a hurry: then it is pressed again."""
        for _ in range(PRESSES):
            try:
                with self.page.expect_file_chooser(timeout=3_000) as chooser:
                    self.key("Enter")
                return chooser.value
            except TimeoutError:
                continue
        raise AssertionError("No file can be chosen by the Enter key.")

    def follow(self, name):
        self._tab_to(name=name)
        with self.page.expect_navigation():
            self.key("Enter")

    def choose_drawing(self, name):
        self.page.locator(CHOOSER).wait_for()
        if self.page.locator(f"{CHOOSER} option:checked").text_content() != name:
            self.go(CHOOSER)
            self._name(f"{CHOOSER} option", name)

    def choose(self, field, value):
        self.go(field)
        name = self.page.locator(f'{field} option[value="{value}"]').text_content()
        self._name(f"{field} option", name.strip())
        assert self.page.input_value(field) == value

    def write(self, field, text):
        self.go(field)
        self.page.keyboard.type(text)

    def unfold(self, title):
        self._tab_to(name=title)
        self.key("Enter")

    def tick(self, field):
        self.go(field)
        self.key("Space")

    def press(self, button):
        self.go(button)
        with self.page.expect_navigation():
            self.key("Enter")

    def draw(self, form, points):
        """Lengths as near as short steps come; round a part nobody is that particular."""
        self.choose_drawing(form)
        self.go(".photo-surface")
        for point in points:
            self._cross_to(point, is_near_enough=form == "Mark what is shown")
            self.key("Enter")

    def go(self, selector):
        self.page.locator(selector).first.wait_for()
        self._tab_to(selector=selector)

    def _name(self, options, name):
        """A list takes the first letters of an entry: as many as no other entry begins with."""
        others = [text.strip() for text in self.page.locator(options).all_text_contents()]
        alike = max(len(commonprefix([name, other])) for other in others if other != name)
        self.page.keyboard.type(name[:alike + 1])

    def _tab_to(self, **wanted):
        """Some stops are passed at once, such as a group of choices: hence again from there."""
        for _ in range(MOST_SEARCHES):
            away = self.page.evaluate(AWAY, wanted)
            if away == 0:
                return
            self._hold("Tab" if away > 0 else "Shift+Tab", abs(away))
        raise AssertionError(f"Tab does not reach {wanted}")

    def _cross_to(self, point, is_near_enough):
        """Long steps with Shift, then short ones."""
        x, y, step = self.page.evaluate(CROSS)
        for there, here, (less, more) in zip(point, (x, y), ARROWS, strict=True):
            key = more if there > here else less
            long, short = divmod(round(abs(there - here) / step), 10)
            self._hold(f"Shift+{key}", long)
            self._hold(key, 0 if is_near_enough else short)

    def _hold(self, keys, times):
        """Keeps the last of the keys down until it has acted so often."""
        *held, last = keys.split("+")
        if not times:
            return
        for key in (*held, *[last] * times):
            self.page.keyboard.down(key)
        for key in (last, *held):
            self.page.keyboard.up(key)
