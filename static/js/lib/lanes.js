/** Spans in as many lanes as keep them and their letters apart; all in pixels. */

/**
 * @param {{start: number, end: number, text: string}[]} spans
 * @param {number} width of the drawing, on which every letter stays
 * @returns {{lane: number, middle: number}[]} in the order of the spans
 */
export function lanes(spans, width, character = 9) {
  const free = [];
  const placed = new Array(spans.length);
  const order = spans.map((_, i) => i).sort((a, b) => spans[a].start - spans[b].start);
  for (const index of order) {
    const { start, end, text } = spans[index];
    const half = (character * text.length) / 2 + 2;
    const middle = Math.min(Math.max((start + end) / 2, half), width - half);
    const left = Math.min(start, middle - half);
    let lane = free.findIndex((taken) => left > taken + 2);
    if (lane < 0) lane = free.length;
    free[lane] = Math.max(end, middle + half);
    placed[index] = { lane, middle };
  }
  return placed;
}

/** Spans that stand at one place are one, and its text names all: "A–C, F". */
export function together(spans) {
  const groups = new Map();
  spans.forEach((span, index) => {
    const key = `${span.start} ${span.end}`;
    if (!groups.has(key)) groups.set(key, { start: span.start, end: span.end, members: [] });
    groups.get(key).members.push(index);
  });
  return [...groups.values()].map((group) => ({ ...group, text: inRuns(group.members, spans) }));
}

function inRuns(members, spans) {
  const runs = [];
  for (const index of members) {
    if (runs.length && runs.at(-1).at(-1) === index - 1) runs.at(-1).push(index);
    else runs.push([index]);
  }
  return runs.map((run) => {
    const [first, last] = [spans[run[0]].letter, spans[run.at(-1)].letter];
    if (run.length === 1) return first;
    return run.length === 2 ? `${first}, ${last}` : `${first}–${last}`;
  }).join(", ");
}
