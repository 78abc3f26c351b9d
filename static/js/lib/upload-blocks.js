/**
 * Sends a file in blocks and goes on where a broken connection left off. No DOM; what it needs of the
 * browser is handed in.
 *
 *   POST start        {name, size, sha256?, …}     → {upload, offset}, or {kept} if it is there already
 *   PUT  start<id>/   block, Upload-Offset: n      → 204, Upload-Offset: next; at the end 201 {kept}
 *   GET  start<id>/                                → {offset}, or {kept} if the end was reached
 *
 * `kept` is the address of what the file became. {refused}, in words, may come instead of any of them.
 * 409 states the right offset; 404 means that the server no longer knows the upload.
 */
import { say } from "./say.js";

export const BLOCK = 1024 * 1024;
export const TRIES = 8;
const LONGEST_WAIT = 30_000;
// Without it a refusal is 422, which browsers print as a fault of the page (RFC 7240).
const PREFER = { Prefer: "refusal-status=200" };

/** A file that the server will not take, in the reader's words. */
export class Refusal extends Error {}

/** The connection stayed broken. */
export class Interrupted extends Error {}

/** Something that may pass: no answer, or one that says "later". */
class Hitch extends Error {}

/** How far a file has come; handed in again, it goes on from there. */
export const freshState = () => ({ id: null, offset: 0, furthest: 0, isSure: true });

/** Milliseconds before the next try: 0.5 s, doubled each time. */
export const pauseBefore = (attempt) => Math.min(500 * 2 ** (attempt - 1), LONGEST_WAIT);

/** First and last byte (exclusive) of the block at an offset. */
export const blockAt = (offset, size) => [offset, Math.min(offset + BLOCK, size)];

/**
 * @param {Blob} file
 * @param {{
 *   start: string, about: Record<string, string | number>, token: string,
 *   fetch: typeof fetch, wait: (ms: number) => Promise<void>, progress: (bytes: number) => void,
 * }} how `about` is what is said at the start; `wait` may end early when the network is back
 * @param {ReturnType<typeof freshState>} state is changed as the file goes on
 * @returns {Promise<{kept: string}>}
 * @throws {Refusal | Interrupted}
 */
export async function sendInBlocks(file, how, state = freshState()) {
  for (let failures = 0; ;) {
    try {
      const done = await step(file, state, how);
      if (done) return done;
      how.progress(state.offset);
      if (state.offset > state.furthest) failures = 0;
      state.furthest = Math.max(state.furthest, state.offset);
    } catch (error) {
      if (!isHitch(error)) throw error;
      failures += 1;
      state.isSure = false;
      if (failures >= TRIES) throw new Interrupted("The connection broke off.");
      await how.wait(pauseBefore(failures));
    }
  }
}

// A fetch that gets no answer rejects with a TypeError, one that takes too long with a TimeoutError.
const isHitch = (error) =>
  error instanceof Hitch || error instanceof TypeError || error.name === "TimeoutError";

function step(file, state, how) {
  if (!state.id) return begin(state, how);
  return state.isSure ? put(file, state, how) : ask(state, how);
}

async function begin(state, { start, about, token, fetch }) {
  const answer = await fetch(start, {
    method: "POST", body: JSON.stringify(about),
    headers: { "Content-Type": "application/json", "X-CSRFToken": token, ...PREFER },
  });
  const { upload, offset, kept } = await said(answer);
  if (kept) return { kept };
  Object.assign(state, { id: String(upload), offset: offset ?? 0, isSure: true });
  return null;
}

async function put(file, state, { start, token, fetch }) {
  const before = state.offset;
  const answer = await fetch(`${start}${state.id}/`, {
    method: "PUT", body: file.slice(...blockAt(before, file.size)),
    headers: { "X-CSRFToken": token, "Upload-Offset": String(before), ...PREFER },
  });
  if (answer.status === 201) return said(answer);
  if (answer.status === 404) return forget(state);
  if (answer.status !== 204 && answer.status !== 409) return said(answer).then(noSense);
  state.offset = offsetOf(answer);
  if (state.offset === before) throw new Hitch("The server stays where it is.");
  return null;
}

async function ask(state, { start, fetch }) {
  const answer = await fetch(`${start}${state.id}/`, { headers: PREFER });
  if (answer.status === 404) return forget(state);
  const { offset, kept } = await said(answer);
  if (kept) return { kept };
  Object.assign(state, { offset, isSure: true });
  return null;
}

// Begun again, for what the server forgot; if the file had arrived whole, it knows it by its digest.
function forget(state) {
  Object.assign(state, { id: null, offset: 0, furthest: 0 });
  throw new Hitch("The server does not know this upload.");
}

function noSense() {
  throw new Hitch("The answer makes no sense.");
}

function offsetOf(answer) {
  const offset = Number.parseInt(answer.headers.get("Upload-Offset"), 10);
  if (!(offset >= 0)) throw new Hitch("The answer states no offset.");
  return offset;
}

/** What an answer says; a refusal is thrown. */
async function said(answer) {
  const isJson = answer.headers.get("Content-Type")?.startsWith("application/json") ?? false;
  if (answer.ok && isJson && !answer.redirected) return agreed(await answer.json());
  if (answer.status >= 500 || answer.status === 408 || answer.status === 429) throw new Hitch("Later.");
  const message = isJson && !answer.ok ? (await answer.json()).message : "";
  throw new Refusal(message || meaning(answer));
}

function agreed(said) {
  if (said.refused) throw new Refusal(said.refused);
  return said;
}

function meaning({ status, redirected }) {
  if (redirected || status === 401 || status === 403) {
    return say("The server no longer takes this page's files. Sign in again in another tab, reload this page, then choose the file again.");
  }
  if (status === 413) return say("It is larger than the server takes. Send a smaller copy.");
  return say("The server did not take it (answer {status}). Reload this page, then choose the file again.",
    { status });
}
