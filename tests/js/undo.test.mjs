import assert from "node:assert/strict";
import { test } from "node:test";

import { Undo } from "../../static/js/lib/undo.js";

function drawn(...steps) {
  const history = new Undo("");
  for (const step of steps) history.push(...[step].flat());
  return history;
}

test("undo goes back step by step, redo forth again", () => {
  const history = drawn("a", "ab");
  history.undo();
  assert.equal(history.present, "a");
  history.undo();
  assert.equal(history.present, "");
  history.redo();
  assert.equal(history.present, "a");
});

test("at either end nothing happens", () => {
  const history = drawn("a");
  history.redo();
  assert.equal(history.present, "a");
  history.undo();
  history.undo();
  assert.equal(history.present, "");
  assert.equal(history.canUndo, false);
});

test("a new step forgets what was undone", () => {
  const history = drawn("a");
  history.undo();
  history.push("b");
  assert.equal(history.canRedo, false);
});

test("steps of one tag are undone at once", () => {
  const history = drawn("a", ["b", "nudge 0"], ["c", "nudge 0"]);
  history.undo();
  assert.equal(history.present, "a");
});

test("another tag, and the same after an undo, begin anew", () => {
  const history = drawn(["a", "nudge 0"], ["b", "nudge 1"]);
  history.undo();
  assert.equal(history.present, "a");
  history.push("c", "nudge 0");
  history.undo();
  assert.equal(history.present, "a");
});
