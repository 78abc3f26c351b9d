"""One finger, or two, on a page: everything is brought into view and tapped."""
ON_SCREEN = """([x, y]) => {
  const surface = document.querySelector(".photo-surface");
  const at = new DOMPoint(x, y).matrixTransform(surface.getScreenCTM());
  return [at.x, at.y];
}"""
SMALL = 70                          # pixels of the picture
NEAR, FAR, STEPS = 40, 140, 6       # screen pixels between two fingers, before and after


class Finger:
    def __init__(self, page):
        self.page = page
        self.touch = page.context.new_cdp_session(page)

    def to_photos(self):
        self.page.locator(".rail summary").tap()
        self.follow("Photos")

    def send(self, files):
        self.page.set_input_files("#photo-files", files)

    def follow(self, name):
        self.page.get_by_role("link", name=name).first.tap()

    def choose_drawing(self, name):
        self.page.get_by_label("The picture draws for").select_option(label=name)

    def choose(self, field, value):
        self.page.locator(field).select_option(value)

    def write(self, field, text):
        self.page.locator(field).tap()
        self.page.keyboard.type(text)

    def unfold(self, title):
        self.page.locator("summary").filter(has_text=title).tap()

    def tick(self, field):
        self.page.locator(field).tap()

    def press(self, button):
        self.page.locator(button).last.tap()

    def draw(self, form, points):
        """Near points are brought closer first, as a person would."""
        self.choose_drawing(form)
        self.page.locator(".photo-surface").scroll_into_view_if_needed()
        if max(abs(x - points[0][0]) for x, _ in points) < SMALL:
            (x0, y0), (x1, y1) = points[0], points[-1]
            for _ in range(2):
                self.pinch(((x0 + x1) / 2, (y0 + y1) / 2))
        for point in points:
            self.page.touchscreen.tap(*self.at(point))
        self.page.get_by_role("button", name="Fit: show the whole picture").tap()

    def at(self, point):
        return self.page.evaluate(ON_SCREEN, list(point))

    def pinch(self, about):
        """One finger stays on a place, the other moves away from it, to where there is room."""
        x, y = self.at(about)
        away = 1 if x < self.page.viewport_size["width"] / 2 else -1
        self._fingers("touchStart", (x, y), (x + away * NEAR, y))
        for step in range(1, STEPS + 1):
            apart = NEAR + (FAR - NEAR) * step / STEPS
            self._fingers("touchMove", (x, y), (x + away * apart, y))
        self._fingers("touchEnd")

    def _fingers(self, kind, *places):
        points = [{"x": x, "y": y, "id": i} for i, (x, y) in enumerate(places)]
        self.touch.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": points})
