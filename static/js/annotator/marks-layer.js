/**
 * The marks that the server drew: which one is meant, and which one stands out. A label that would
 * cover another one gives way to the mark's number in the list.
 */
import { roomFor } from "../lib/label-room.js";
import { parsedPoints } from "../lib/point-text.js";
import { distanceTo, extent } from "../lib/shapes.js";

const DIGIT = 9;        // screen pixels

export class MarksLayer {
  #drawing;
  #pixel = 0;
  #labels = null;
  #texts;

  /**
   * @param {SVGElement} drawing with a `g[data-key][data-shape][data-points]` for each mark, and
   *   above all of them its label, a `text[data-of]`
   */
  constructor(drawing) {
    this.#drawing = drawing;
    this.#texts = new Map([...drawing.querySelectorAll("text[data-of]")].map((text) => [text.dataset.of, text]));
  }

  get #groups() {
    return [...this.#drawing.querySelectorAll("g[data-key]")];
  }

  /** Pixels of the picture a pixel of the screen: the closer, the more labels find room. */
  set pixel(pixel) {
    if (pixel === this.#pixel) return;
    this.#pixel = pixel;
    this.#labels ??= this.#measured();
    this.#spread();
  }

  // The script's labels have one size on the screen, so that they are measured once.
  #measured() {
    return this.#groups.map((group, index) => [group, this.#texts.get(group.dataset.key), String(index + 1)])
      .filter(([, text]) => text)
      .map(([group, text, number]) => {
        text.textContent = text.dataset.words ??= text.textContent;
        return {
          group, text, texts: [text.dataset.words, number],
          place: ["x", "y"].map((name) => Number(text.getAttribute(name))),
          isLeft: text.getAttribute("text-anchor") === "end",
          widths: [text.getComputedTextLength() / this.#pixel, DIGIT * number.length],
        };
      });
  }

  #spread() {
    const labels = this.#labels ?? [];
    const chosen = roomFor(labels.map(({ group, place, isLeft, widths }) => ({
      at: place.map((side) => side / this.#pixel), isLeft, widths,
      isWanted: group.matches(".chosen, :target"),
    })));
    labels.forEach(({ text, texts }, index) => { text.textContent = texts[chosen[index]] ?? ""; });
  }

  /** The key of the label that covers a place on the screen. */
  labelAt([x, y]) {
    return [...this.#texts.values()].find((text) => {
      const box = text.getBoundingClientRect();
      return box.left <= x && x <= box.right && box.top <= y && y <= box.bottom;
    })?.dataset.of;
  }

  /** The key of the smallest mark within reach of a place on the picture. */
  markAt(at, reach) {
    return this.#groups.map(({ dataset }) => nearness(dataset, at))
      .filter(({ distance }) => distance <= reach)
      .sort((a, b) => a.area - b.area)[0]?.key;
  }

  /** The key of the mark whose element has this id. */
  keyOf(id) {
    return this.#groups.find((group) => group.id === id)?.dataset.key;
  }

  pointsOf(key) {
    return parsedPoints(this.#groups.find(({ dataset }) => dataset.key === key).dataset.points);
  }

  highlight(key) {
    this.#toggle("chosen", key);
    this.#spread();
  }

  /** The mark that is being drawn anew steps back behind its drawing. */
  editing(key) {
    this.#toggle("edited", key);
  }

  #toggle(name, key) {
    for (const group of this.#groups) group.classList.toggle(name, group.dataset.key === key);
    for (const [of, text] of this.#texts) text.classList.toggle(name, of === key);
  }
}

function nearness({ key, shape, points }, at) {
  const places = parsedPoints(points);
  const [, , width, height] = extent(places);
  return { key, area: width * height, distance: distanceTo(shape, places, at) };
}
