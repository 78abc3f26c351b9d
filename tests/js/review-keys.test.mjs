import assert from "node:assert/strict";
import { test } from "node:test";

import { KEYS, asked, placeOf } from "../../static/js/lib/review-keys.js";

const onItem = { onItem: true, isOff: false };

test("each key asks for its own action while an item has the focus", () => {
  assert.equal(asked({ key: "c" }, onItem), "confirm");
  assert.equal(asked({ key: "D" }, onItem), "dispute");
  assert.equal(asked({ key: "x" }, onItem), "");
});

test("no key counts in a field or beside a modifier", () => {
  for (const key of Object.keys(KEYS)) {
    assert.equal(asked({ key }, { onItem: false, isOff: false }), "");
    for (const modifier of ["ctrlKey", "metaKey", "altKey"]) {
      assert.equal(asked({ key, [modifier]: true }, onItem), "");
    }
  }
});

test("switched off, letters are silent and arrows go on", () => {
  for (const key of Object.keys(KEYS)) {
    assert.equal(asked({ key }, { onItem: true, isOff: true }) !== "", key.startsWith("Arrow"));
  }
});

test("next and previous stop at the ends", () => {
  const open = [true, false, true];
  assert.equal(placeOf("next", open, 1), 2);
  assert.equal(placeOf("next", open, 2), -1);
  assert.equal(placeOf("previous", open, 0), -1);
  assert.equal(placeOf("next", open, -1), 0);
});

test("the next undecided one goes round, and is none where all is decided", () => {
  assert.equal(placeOf("undecided", [true, false, true], 0), 2);
  assert.equal(placeOf("undecided", [true, false, true], 2), 0);
  assert.equal(placeOf("undecided", [false, false], 0), -1);
});
