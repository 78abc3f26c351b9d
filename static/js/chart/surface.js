/**
 * The layer over the panels that takes pointer and keys, and shows what is pointed at: results with
 * their letters, cursors, the ends of a span that is being chosen. Places across are percent of the view.
 */
import { lanes, together } from "../lib/lanes.js";
import { say } from "../lib/say.js";
import { svg, set } from "../annotator/svg.js";

const ENDS = [
  (name) => say("Start of {name}", { name }), (name) => say("End of {name}", { name }),
];
const LANE = 22;
const GRIP = 52;        // px from the letters to the middle of the first handle, inside the first panel

export class Surface {
  element;
  #results = svg("g", { class: "log-marks" });
  #chosen = svg("rect", { class: "log-chosen", y: 0, height: "100%" });
  #drawn = svg("rect", { class: "log-drawn", y: 0, height: "100%" });
  #cursors = [1, 2].map(madeCursor);
  #handles = ENDS.map(madeHandle);
  #view = [0, 1];

  constructor(label, help) {
    this.element = svg("svg", {
      class: "log-surface", tabindex: "0", role: "application", "aria-label": label,
      "aria-describedby": help,
    }, this.#chosen, this.#drawn, this.#results, ...this.#cursors, ...this.#handles);
    this.drawSelection(null);
    this.drawSpan(null);
  }

  set view(view) {
    this.#view = view;
  }

  /** The time under a place on the screen. */
  timeAt([clientX]) {
    return this.#view[0] + this.shareAt([clientX]) * (this.#view[1] - this.#view[0]);
  }

  shareAt([clientX]) {
    const { left, width } = this.element.getBoundingClientRect();
    return Math.min(Math.max((clientX - left) / (width || 1), 0), 1);
  }

  /** Seconds that a pixel of the screen covers. */
  get pixel() {
    return (this.#view[1] - this.#view[0]) / (this.element.getBoundingClientRect().width || 1);
  }

  /** 0 or 1 for a handle, −1 for anything else. */
  handleOf(node) {
    return this.#handles.findIndex((handle) => handle.contains(node));
  }

  focus(handle = -1) {
    (this.#handles[handle]?.querySelector("[role=slider]") ?? this.element).focus({ preventScroll: true });
  }

  /** Draws the results that reach into the view; returns the room in px that their letters take. */
  drawResults(results, chosen) {
    const width = this.element.getBoundingClientRect().width || 1;
    const inView = results.filter(({ start, end }) => end >= this.#view[0] && start <= this.#view[1]);
    const marks = together(inView.map(({ letter, start, end }) => ({
      letter, start: this.#clamped(start) * width, end: this.#clamped(end) * width,
    })));
    const places = lanes(marks, width);
    this.#results.replaceChildren(...marks.flatMap((mark, i) => {
      const members = mark.members.map((member) => inView[member]);
      return madeMark(mark, places[i], width, this.#endsOf(members), members.includes(chosen));
    }));
    return LANE * (1 + Math.max(-1, ...places.map(({ lane }) => lane)));
  }

  /** Shares of the ends that are in view themselves. */
  #endsOf(results) {
    const shares = results.flatMap(({ start, end }) => [this.#share(start), this.#share(end)]);
    return [...new Set(shares)].filter((share) => share >= 0 && share <= 1);
  }

  drawCursors(times) {
    this.#cursors.forEach((cursor, i) => this.#put(cursor, times[i]));
  }

  /** @param {[number, number] | null} span chosen for a result */
  drawSpan(span, { name = say("the span"), room = 0, texts = [], whole = [0, 1] } = {}) {
    this.#band(this.#chosen, span);
    this.#handles.forEach((handle, i) => {
      this.#put(handle, span?.[i]);
      if (!span) return;
      set(handle.querySelector("[role=slider]"), {
        "aria-label": ENDS[i](name),
        "aria-valuenow": span[i], "aria-valuetext": texts[i] ?? "",
        "aria-valuemin": whole[0], "aria-valuemax": whole[1],
      });
      set(handle.querySelector("g"), { transform: `translate(0 ${room + GRIP + 34 * i})` });
    });
  }

  /** @param {[number, number] | null} span that a drag would zoom to */
  drawSelection(span) {
    this.#band(this.#drawn, span);
  }

  #band(rect, span) {
    rect.toggleAttribute("hidden", !span);
    if (!span) return;
    const [from, to] = span.map((time) => this.#clamped(time) * 100);
    set(rect, { x: `${from}%`, width: `${Math.max(to - from, 0)}%` });
  }

  #put(part, time) {
    const share = time === undefined ? -1 : this.#share(time);
    const isShown = share >= -1e-9 && share <= 1 + 1e-9;
    part.toggleAttribute("hidden", !isShown);
    if (isShown) part.setAttribute("x", `${share * 100}%`);
  }

  #share(time) {
    return (time - this.#view[0]) / (this.#view[1] - this.#view[0] || 1);
  }

  #clamped(time) {
    return Math.min(Math.max(this.#share(time), 0), 1);
  }
}

function madeMark({ start, end, text }, { lane, middle }, width, ends, isChosen) {
  const y = lane * LANE + 18;
  const at = (x) => `${(100 * x) / width}%`;
  const cls = (name) => (isChosen ? `${name} chosen` : name);
  const letter = svg("text", {
    class: cls("log-letter"), x: at(middle), y: y - 5, "text-anchor": "middle",
  });
  letter.textContent = text;
  const uprights = ends.map((share) => svg("line", {
    class: cls("log-end"), x1: at(share * width), x2: at(share * width), y1: y, y2: "100%",
  }));
  const bar = svg("line", { class: cls("log-span"), x1: at(start), x2: at(end), y1: y, y2: y });
  return [...uprights, bar, letter];
}

function madeCursor(number) {
  const label = svg("text", { class: "log-cursor-name", x: 4, y: "100%", dy: -6 });
  label.textContent = String(number);
  const line = svg("line", { class: `log-cursor log-cursor-${number}`, y1: 0, y2: "100%" });
  return svg("svg", { width: 1, height: "100%", "aria-hidden": "true", hidden: "" }, line, label);
}

function madeHandle(end) {
  const slider = svg("g", {
    class: "log-handle", role: "slider", tabindex: "0", "aria-label": end(say("the span")),
    "aria-orientation": "horizontal",
  }, svg("rect", { class: "reach", x: -15, y: -16, width: 30, height: 32 }),
  svg("rect", { class: "grip", x: -7, y: -13, width: 14, height: 26, rx: 2 }),
  svg("path", { class: "ribs", d: "M-2-5v10M2-5v10" }));
  return svg("svg", { width: 1, height: "100%", hidden: "" },
    svg("line", { class: "log-handle-line", y1: 0, y2: "100%" }), slider);
}
