/**
 * The layer over the picture that takes the pointer and the keys, and shows the drawing in progress.
 *
 * Lines are in pixels of the picture; handles, crosshair and length keep their size on the screen.
 */
import { pointName, pathData } from "../lib/shapes.js";
import { printedPlace } from "../lib/point-text.js";
import { set, svg } from "./svg.js";

export class Surface {
  element;
  #beside = svg("path", { class: "beside" });
  #besideHalo = svg("path", { class: "halo" });
  #halo = svg("path", { class: "halo" });
  #line = svg("path", { class: "line" });
  #aheadHalo = svg("path", { class: "halo" });
  #ahead = svg("path", { class: "ahead" });
  #handles = svg("g", { class: "handles" });
  #crosshair = svg("g", { class: "crosshair" }, ...crossLines());
  #length = svg("text", { class: "length" });
  #pixel = 1;

  constructor(label, help) {
    this.element = svg("svg", {
      class: "photo-surface", tabindex: "0", role: "application", "aria-label": label,
      "aria-describedby": help,
    }, this.#besideHalo, this.#beside, this.#halo, this.#line, this.#aheadHalo, this.#ahead, this.#handles, this.#crosshair,
    this.#length);
  }

  /** Which handle an event or the focus is on; −1 for none. */
  indexOf(node) {
    const handle = node?.closest?.(".handle");
    return handle ? [...this.#handles.children].indexOf(handle) : -1;
  }

  focus(index = -1) {
    (this.#handles.children[index] ?? this.element).focus({ preventScroll: true });
  }

  /** Pixels of the picture a pixel of the screen, for what keeps its size on the screen. */
  set pixel(pixel) {
    this.#pixel = pixel;
  }

  /**
   * Draws the shape; `ahead` continues it to where the pointer is, `beside` are others of the form.
   * Clicks are hidden once they are made: whoever sees them aims at them instead of at the point.
   */
  draw(shape, points, { ahead = [], length = "", selected = -1, beside = [] } = {}) {
    const others = beside.map((other) => pathData(other.shape, other.points)).join("");
    for (const path of [this.#besideHalo, this.#beside]) set(path, { d: others });
    this.#handles.classList.toggle("clicks", shape === "clicks");
    const data = pathData(shape, points);
    const aheadData = pathData(shape === "polygon" ? "path" : shape, ahead);
    for (const path of [this.#halo, this.#line]) set(path, { d: data });
    for (const path of [this.#aheadHalo, this.#ahead]) set(path, { d: aheadData });
    this.#drawHandles(shape, points, selected);
    this.#drawLength(ahead.length ? ahead : points, length);
  }

  // Handles are kept, not made anew: the one in focus would lose it.
  #drawHandles(shape, points, selected) {
    const handles = this.#handles.children;
    while (handles.length > points.length) handles[handles.length - 1].remove();
    while (handles.length < points.length) this.#handles.append(madeHandle());
    points.forEach((point, index) => {
      const name = `${pointName(shape, index)}: ${printedPlace(point)}`;
      set(handles[index], { transform: this.#at(point), "aria-label": name });
      handles[index].classList.toggle("selected", index === selected);
    });
  }

  // Beside the last point, on the side where there is room; a line for each part.
  #drawLength(points, length) {
    this.#length.replaceChildren();
    if (!length) return;
    const [x, y] = points.at(-1);
    const view = this.element.viewBox.baseVal;
    const [isRight, isTop] = [x > view.x + 0.45 * view.width, y < view.y + view.height / 5];
    const lines = length.split(", ").map((part, i) =>
      svg("tspan", { x: isRight ? -14 : 14, dy: i ? 18 : 0 }, part));
    this.#length.append(...lines);
    set(this.#length, {
      transform: this.#at([x, y]), y: isTop ? 26 : 4 - 18 * lines.length,
      "text-anchor": isRight ? "end" : "start",
    });
  }

  drawCrosshair(point) {
    set(this.#crosshair, { transform: this.#at(point) });
  }

  #at([x, y]) {
    return `translate(${x} ${y}) scale(${this.#pixel})`;
  }
}

function madeHandle() {
  const circle = (name, r) => svg("circle", { class: name, r });
  return svg("g", { class: "handle", role: "button", tabindex: "0" },
    circle("grip", 16), circle("ring-halo", 9), circle("ring", 9),
    circle("spot-halo", 3), circle("spot", 1.5));
}

function crossLines() {
  const data = "M-60 0H-5M5 0H60M0 -60V-5M0 5V60";
  return [svg("path", { class: "halo", d: data }), svg("path", { class: "line", d: data })];
}
