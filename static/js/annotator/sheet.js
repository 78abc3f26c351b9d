/**
 * A field that takes points: its shape and what can be undone in it.
 *
 *   <form data-shapes="line path" data-name="Measure a length">
 *     <select name="shape">…</select> <input name="points"> …
 *     <input name="slot" data-shapes="polygon" data-name="The slot">     a second one, if it takes two
 *   </form>
 */
import { complaint } from "../lib/shapes.js";
import { parsedPoints, printedPoints } from "../lib/point-text.js";
import { say } from "../lib/say.js";
import { Undo } from "../lib/undo.js";

export class Sheet {
  #data;
  #isOnly;
  #history;
  #unreadable = "";

  /** @type {Sheet[]} the other ones of its form */
  beside = [];

  /**
   * @param {HTMLFormElement} form with `data-shapes`, perhaps `data-corners` and `data-name`
   * @param {HTMLInputElement} [field] with its own `data-shapes` and `data-name`; else `points`
   */
  constructor(form, field) {
    this.form = form;
    this.field = field ?? form.elements.points;
    this.#data = field ? field.dataset : form.dataset;
    this.#isOnly = !field;
    this.#history = new Undo(this.#read() ?? []);
    this.check();
  }

  get name() {
    const name = this.#data.name ?? say("Drawing");
    return this.#isOnly ? name : `${this.form.dataset.name}: ${name}`;
  }

  /** Also where somebody opened it before the script came. */
  get isUnfolded() {
    return this.form.closest("details[open]") !== null;
  }

  /** Opens whatever its field is folded away in. */
  unfold() {
    let fold = this.field.closest("details");
    while (fold) {
      fold.open = true;
      fold = fold.parentElement.closest("details");
    }
  }

  /** Whether somebody who is at this place of the form means this sheet. */
  isMeantAt(target) {
    if (target === this.field) return true;
    return this.#isOnly && target.form === this.form && !this.beside.some(({ field }) => field === target);
  }

  get corners() {
    return Number(this.#data.corners ?? 0);
  }

  /** What the form's `shape` field says; without one the last of `data-shapes`, which takes most. */
  get shape() {
    const shapes = this.#data.shapes.split(" ");
    const chosen = this.#isOnly ? this.form.elements.shape?.value : undefined;
    return shapes.includes(chosen) ? chosen : shapes.at(-1);
  }

  get points() {
    return this.#history.present;
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

/** One sheet for each form in `part`, and one for each further field of it that takes points. */
export function sheetsIn(part) {
  return [...part.querySelectorAll("form[data-shapes]")].flatMap((form) => {
    const fields = [...form.querySelectorAll("input[data-shapes]")];
    const sheets = [new Sheet(form), ...fields.map((field) => new Sheet(form, field))];
    for (const sheet of sheets) sheet.beside = sheets.filter((other) => other !== sheet);
    return sheets;
  });
}
