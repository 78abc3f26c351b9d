import assert from "node:assert/strict";
import { test } from "node:test";

import { changedNames, differs, fieldsOf, renumbered } from "../../static/js/lib/kept-fields.js";

test("tokens and files are not kept", () => {
  const entries = [["csrfmiddlewaretoken", "t"], ["submission", "s"], ["a", "1"], ["f", {}]];
  assert.deepEqual(fieldsOf(entries), { a: "1" });
});

test("only what a person can type counts as a change", () => {
  const before = { "p-0-key": "x", "p-0-version": "1", "p-TOTAL": "1", "p-0-label": "C1" };
  const after = { "p-0-key": "y", "p-0-version": "2", "p-TOTAL": "2", "p-0-label": "C2" };
  assert.deepEqual(changedNames(before, after), ["p-0-label"]);
});

test("a radio that was chosen since is a change", () => {
  assert.deepEqual(changedNames({}, { "p-0-state": "not_found" }), ["p-0-state"]);
});

test("a row goes where its key stands now", () => {
  const kept = { "p-0-key": "b", "p-0-label": "C2" };
  const now = { "p-0-key": "a", "p-0-label": "C1", "p-1-key": "b", "p-1-label": "" };
  assert.equal(renumbered(kept, now)["p-1-label"], "C2");
});

test("a row that the page does not know keeps its number", () => {
  const kept = { "p-2-key": "new", "p-2-label": "C9", "unit-maker": "M" };
  assert.deepEqual(renumbered(kept, { "p-0-key": "a" }), kept);
});

test("a row that the page has grown since is no difference, another value of a kept one is", () => {
  assert.equal(differs({ "p-0-label": "C1" }, { "p-0-label": "C1", "p-1-label": "" }), false);
  assert.equal(differs({ "p-0-label": "C1" }, { "p-0-label": "C2" }), true);
});
