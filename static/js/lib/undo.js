/** What was, what is and what was undone. States are never changed, only replaced. */
export class Undo {
  #past = [];
  #future = [];
  #present;
  #tag = "";

  constructor(first) {
    this.#present = first;
  }

  get present() {
    return this.#present;
  }

  get canUndo() {
    return this.#past.length > 0;
  }

  get canRedo() {
    return this.#future.length > 0;
  }

  /** Steps that bear the same tag one after the other, such as nudges of one point, undo at once. */
  push(state, tag = "") {
    if (!tag || tag !== this.#tag) this.#past.push(this.#present);
    this.#tag = tag;
    this.#present = state;
    this.#future = [];
  }

  undo() {
    this.#step(this.#past, this.#future);
  }

  redo() {
    this.#step(this.#future, this.#past);
  }

  #step(from, to) {
    if (!from.length) return;
    to.push(this.#present);
    this.#present = from.pop();
    this.#tag = "";
  }
}
