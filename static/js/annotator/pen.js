/** Draws for one form at a time: places, moves and removes its points and says what it did. */
import { nudged, onPicture } from "../lib/nudge.js";
import { legs, printedLegs } from "../lib/plane-lengths.js";
import { printedPlace, rounded } from "../lib/point-text.js";
import { say } from "../lib/say.js";
import { called, counted, halved, isFull, moved, nearestOf, placed, pointName, pointPlaced, without } from "../lib/shapes.js";

const TARGET = 12;      // screen pixels around a point in which a tap means the point

export class Pen {
  #camera;
  #size;
  #plane;
  #say;
  #changed;
  #sheet = null;

  /** Which point is meant by "remove"; −1: the last. */
  selected = -1;

  /**
   * @param {{camera: import("./camera.js").Camera, size: [number, number],
   *   plane: import("../lib/plane-lengths.js").Plane | null,
   *   say: (text: string, later?: boolean) => void, changed: () => void}} its surroundings
   */
  constructor({ camera, size, plane, say, changed }) {
    this.#camera = camera;
    this.#size = size;
    this.#plane = plane;
    this.#say = say;
    this.#changed = changed;
  }

  get sheet() {
    return this.#sheet;
  }

  set sheet(sheet) {
    this.#sheet = sheet;
    this.selected = -1;
  }

  get #isFull() {
    const { shape, points, corners } = this.#sheet;
    return isFull(shape, points, corners);
  }

  /** Whether a mouse may draw the shape in one drag. */
  get drawsByDrag() {
    return this.#sheet.shape === "box";
  }

  /** The points from which the next leg goes to where the mouse is. */
  get #loose() {
    const { shape, points } = this.#sheet;
    if (!points.length || shape === "point" || shape === "clicks" || this.#isFull) return [];
    return shape === "box" ? points : points.slice(-1);
  }

  /** What to show while the mouse is `at` a place, or nowhere. */
  preview(at) {
    const loose = at ? this.#loose : [];
    const ahead = loose.length ? [...loose, at] : [];
    const length = this.#length(ahead.length ? [...this.#sheet.points, at] : this.#sheet.points);
    return { ahead, length, selected: this.selected, beside: this.#sheet.beside };
  }

  #length(points) {
    const { shape } = this.#sheet;
    if (!this.#plane || (shape !== "line" && shape !== "path")) return "";
    return printedLegs(legs(points, this.#plane));
  }

  /**
   * Which point a tap means, −1 for a new one. A point's grip is wide for the sake of dragging and
   * may cover its neighbour: a tap that is on the grip but not near the point is a place of its own.
   */
  pointMeant(at, gripped) {
    const { shape, points } = this.#sheet ?? { points: [] };
    if (gripped < 0 || !points.length) return -1;
    const index = this.nearest(at);
    const away = Math.hypot(at[0] - points[index][0], at[1] - points[index][1]);
    const takesMore = shape === "point" || !this.#isFull;
    return takesMore && away > TARGET * this.#camera.pixel ? -1 : index;
  }

  nearest(at) {
    return nearestOf(this.#sheet.points, at);
  }

  place(at) {
    const { shape, points, corners } = this.#sheet;
    const next = placed(shape, points, this.#kept(at), corners);
    this.selected = -1;
    if (next !== points) this.#put(next);
    if (next !== points || !this.#isFull) return this.#tell(next.length - 1);
    this.#say(say("This {shape} has all its points. Move one, remove one, or press Escape to begin again.",
      { shape: called(shape) }));
  }

  remove(index = this.selected) {
    const { points, shape } = this.#sheet;
    const gone = index < 0 ? points.length - 1 : index;
    if (gone < 0) return;
    this.selected = -1;
    this.#put(without(points, gone));
    this.#say(say("{point} removed. {points} left.",
      { point: pointName(shape, gone), points: counted(points.length - 1) }));
  }

  /** @returns {number} the new point's index; −1 if none was added */
  insert(index) {
    const { shape, points } = this.#sheet;
    if (points.length < 2 || shape === "clicks" || this.#isFull) {
      this.#say(say("This {shape} takes no point here.", { shape: called(shape) }));
      return -1;
    }
    const at = Math.min(index, points.length - 2) + 1;
    this.#put(halved(points, index));
    this.#tell(at);
    return at;
  }

  drop() {
    this.#put([]);
    this.#say(say("The drawing is dropped. Undo brings it back."));
  }

  /** Moves a point by an arrow key; false for another key. */
  nudge(index, key, step) {
    const to = nudged(this.#sheet.points[index], key, step, this.#size);
    if (!to) return false;
    this.#put(moved(this.#sheet.points, index, to), `nudge ${index}`);
    this.#camera.reveal(to);
    this.#say(this.#told(index), true);
    return true;
  }

  step(way) {
    this.#sheet[way]();
    this.#changed();
    const points = counted(this.#sheet.points.length);
    this.#say(way === "undo" ? say("Undone. The drawing has {points}.", { points })
      : say("Done again. The drawing has {points}.", { points }));
  }

  dragPoint(index, from) {
    const before = this.#sheet.points;
    const [x, y] = before[index];
    const [gripX, gripY] = this.#camera.at(from);
    return this.#drag(index, ([toX, toY]) => moved(before, index, [x + toX - gripX, y + toY - gripY]));
  }

  dragBox(from) {
    const start = this.#camera.at(from);
    return this.#drag(1, (to) => [start, to]);
  }

  // All steps of one drag bear its own tag, so that they are undone at once.
  #drag(index, points) {
    const tag = Symbol("drag");
    const move = (client) => this.#put(points(this.#camera.at(client)), tag);
    return {
      move,
      end: (client) => { move(client); this.#tell(index); },
      cancel: () => { this.#sheet.undo(); this.#changed(); },
    };
  }

  #kept(point) {
    return onPicture(point, this.#size).map(rounded);
  }

  #put(points, tag) {
    this.#sheet.put(points.map((point) => this.#kept(point)), tag);
    this.#changed();
  }

  #tell(index) {
    this.#say(this.#told(index));
  }

  #told(index) {
    const { shape, points } = this.#sheet;
    const length = this.#length(points);
    const told = pointPlaced(shape, index, printedPlace(points[index]));
    return length ? `${told} ${length}.` : told;
  }
}
