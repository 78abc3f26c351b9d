/** Which labels of marks find room beside each other. */
// Screen pixels, as `photo.css` sets labels; their tails may touch the next line.
const [BESIDE, ABOVE, BELOW, AIR] = [7, 18, 6, 2];

/**
 * In their order, but the wanted ones first, labels take the longest of their texts that covers none.
 * @param {{at: [number, number], isLeft: boolean, isWanted: boolean, widths: number[]}[]} labels where
 *   each stands and how wide its texts are, from the longest to the shortest, in pixels of the screen
 * @returns {number[]} the index of the text that has room, −1 for none
 */
export function roomFor(labels) {
  const order = [...labels.keys()].sort((a, b) => labels[b].isWanted - labels[a].isWanted);
  const taken = [];
  const chosen = [];
  for (const index of order) {
    const boxes = labels[index].widths.map((width) => boxOf(labels[index], width));
    chosen[index] = boxes.findIndex((box) => !taken.some((other) => overlap(box, other)));
    if (chosen[index] >= 0) taken.push(boxes[chosen[index]]);
  }
  return chosen;
}

function boxOf({ at: [x, y], isLeft }, width) {
  const left = isLeft ? x - BESIDE - width : x + BESIDE;
  return { left, right: left + width, top: y - ABOVE, bottom: y - BELOW };
}

const overlap = (a, b) =>
  a.left < b.right + AIR && b.left < a.right + AIR && a.top < b.bottom && b.top < a.bottom;
