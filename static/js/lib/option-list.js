/** Which of a list of options is pointed at when a key is pressed. No DOM. */

/**
 * @param {string} key    of a keyboard event
 * @param {number} at     the option pointed at, -1 for none
 * @param {number} count  how many there are
 * @returns {number|null} the option then; -1 is the box itself; null: not a key of the list
 */
export function pointedAt(key, at, count) {
  if (!count) return null;
  const round = count + 1;               // the box is one of the places
  if (key === "ArrowDown") return ((at + 2) % round) - 1;
  if (key === "ArrowUp") return ((at + round) % round) - 1;
  return null;
}

/** Pieces of a text, so that what goes on from the typed one stands out: [before, rest]. */
export function cutAfter(text, typed) {
  const same = text.toLowerCase().startsWith(typed.toLowerCase());
  return same ? [text.slice(0, typed.length), text.slice(typed.length)] : ["", text];
}
