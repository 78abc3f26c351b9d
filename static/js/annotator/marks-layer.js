/** The marks that the server drew: which one is meant, and which one stands out. */
import { parsedPoints } from "../lib/point-text.js";
import { distanceTo, extent } from "../lib/shapes.js";

export class MarksLayer {
  #drawing;

  /** @param {SVGElement} drawing with a `g[data-key][data-shape][data-points]` for each mark */
  constructor(drawing) {
    this.#drawing = drawing;
  }

  get #groups() {
    return [...this.#drawing.querySelectorAll("g[data-key]")];
  }

  /** The key of the label that covers a place on the screen. */
  labelAt([x, y]) {
    return this.#groups.find((group) => {
      const box = group.querySelector("text")?.getBoundingClientRect();
      return box && box.left <= x && x <= box.right && box.top <= y && y <= box.bottom;
    })?.dataset.key;
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
  }

  /** The mark that is being drawn anew steps back behind its drawing. */
  editing(key) {
    this.#toggle("edited", key);
  }

  #toggle(name, key) {
    for (const group of this.#groups) group.classList.toggle(name, group.dataset.key === key);
  }
}

function nearness({ key, shape, points }, at) {
  const places = parsedPoints(points);
  const [, , width, height] = extent(places);
  return { key, area: width * height, distance: distanceTo(shape, places, at) };
}
