/**
 * Two cursors. The free one follows the pointer; to place it frees the second, which then shows the
 * difference; once both are placed, the next place begins anew.
 */
export class Cursors {
  #at = [];
  #placed = 0;

  /** @returns {number[]} none, one or two times */
  get times() {
    return [...this.#at];
  }

  get placed() {
    return this.#placed;
  }

  /** The time that keys start from. */
  get current() {
    return this.#at.at(-1);
  }

  /** The free cursor follows; once both are placed, nothing does. */
  follow(time) {
    if (this.#placed < 2) this.#at[this.#placed] = time;
  }

  /** Keys move the free cursor, or the second one. */
  move(time) {
    this.#at[Math.min(this.#placed, 1)] = time;
  }

  place(time) {
    if (this.#placed === 2) this.clear();
    this.#at[this.#placed] = time;
    this.#placed += 1;
  }

  /** The pointer has gone; what was placed stays. */
  leave() {
    this.#at.length = Math.min(this.#at.length, this.#placed);
  }

  clear() {
    this.#at = [];
    this.#placed = 0;
  }
}
