/** One form that takes points: its shape, its field and what can be undone in it. */
import { complaint } from "../lib/shapes.js";
import { parsedPoints, printedPoints } from "../lib/point-text.js";
import { Undo } from "../lib/undo.js";

export class Sheet {
  #history;
  #unreadable = "";

  /** @param {HTMLFormElement} form with `data-shapes`, perhaps `data-corners` and `data-name` */
  constructor(form) {
    this.form = form;
    this.#history = new Undo(this.#read() ?? []);
    this.check();
  }

  get name() {
    return this.form.dataset.name ?? "Drawing";
  }

  /** Also where somebody opened it before the script came. */
  get isUnfolded() {
    return this.form.closest("details[open]") !== null;
  }

  get corners() {
    return Number(this.form.dataset.corners ?? 0);
  }

  /** What the form's `shape` field says; without one the last of `data-shapes`, which takes most. */
  get shape() {
    const shapes = this.form.dataset.shapes.split(" ");
    const chosen = this.form.elements.shape?.value;
    return shapes.includes(chosen) ? chosen : shapes.at(-1);
  }

  get points() {
    return this.#history.present;
  }

  get field() {
    return this.form.elements.points;
  }

  get canUndo() {
    return this.#history.canUndo;
  }

  get canRedo() {
    return this.#history.canRedo;
  }

  put(points, tag) {
    this.#history.push(points, tag);
    this.#write();
  }

  undo() {
    this.#history.undo();
    this.#write();
  }

  redo() {
    this.#history.redo();
    this.#write();
  }

  /** Takes over what was typed. What cannot be read stays in the field and changes no drawing. */
  typed() {
    const points = this.#read();
    if (points && printedPoints(points) !== printedPoints(this.points)) this.#history.push(points, "typed");
    this.check();
  }

  /** Lets the browser say, before anything is sent, what the shape lacks. */
  check() {
    const lacking = this.points.length ? complaint(this.shape, this.points, this.corners) : "";
    this.field.setCustomValidity(this.#unreadable || lacking);
  }

  #read() {
    this.#unreadable = "";
    try {
      return parsedPoints(this.field.value);
    } catch (error) {
      if (!(error instanceof RangeError)) throw error;
      this.#unreadable = error.message;
      return null;
    }
  }

  #write() {
    this.#unreadable = "";
    this.field.value = printedPoints(this.points);
    this.check();
  }
}
