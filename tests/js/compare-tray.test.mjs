import assert from "node:assert/strict";
import { test } from "node:test";

import {
  MOST, added, address, has, read, removed, words, written,
} from "../../static/js/lib/compare-tray.js";

const unit = (key) => ({ key: String(key), title: `Unit ${key}` });
const SIX = [1, 2, 3, 4, 5, 6].map(unit);

test("what was kept comes back in its order", () => {
  assert.deepEqual(read(written([unit(12), unit("3v2")])), [unit(12), unit("3v2")]);
});

test("nothing kept, or nothing that can be read, is nothing collected", () => {
  for (const text of [null, undefined, "", "{", "7", "{}", '"12"']) assert.deepEqual(read(text), []);
});

test("what is no unit is left out", () => {
  const odd = [{ key: "1&units=2", title: "x" }, { key: "1" }, null, 7, { key: "0", title: "x" },
    { key: "javascript:", title: "x" }, unit(3)];
  assert.deepEqual(read(JSON.stringify(odd)), [unit(3)]);
});

test("a unit is collected once", () => {
  assert.deepEqual(added([unit(1)], unit(1)), [unit(1)]);
  assert.deepEqual(added([unit(1)], unit(2)), [unit(1), unit(2)]);
});

test("there is room for six", () => {
  assert.equal(SIX.length, MOST);
  assert.deepEqual(added(SIX, unit(7)), SIX);
  assert.equal(read(JSON.stringify([...SIX, unit(7)])).length, MOST);
});

test("a unit is taken out by its key alone", () => {
  assert.deepEqual(removed([unit(1), unit("1v2")], "1"), [unit("1v2")]);
  assert.ok(has([unit("1v2")], "1v2") && !has([unit("1v2")], "1"));
});

test("the address names them in their order", () => {
  assert.equal(address("/compare/", [unit(12), unit("3v2")]), "/compare/?units=12,3v2");
});

test("the words say what is missing and when it is full", () => {
  assert.match(words([unit(1)]), /at least one more/);
  assert.match(words(SIX.slice(0, 2)), /^2 units collected\.$/);
  assert.match(words(SIX), /no room for more/);
});
