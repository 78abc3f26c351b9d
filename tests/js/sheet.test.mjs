import assert from "node:assert/strict";
import { test } from "node:test";

import { Sheet, sheetsIn } from "../../static/js/annotator/sheet.js";

/** What the sheet asks of a form and its field. */
function form({ value = "", shape, ...dataset }) {
  const points = { value, setCustomValidity(message) { this.message = message; } };
  return { dataset: { shapes: "point line path", ...dataset }, elements: { points, shape: shape && { value: shape } } };
}

test("what the form held is drawn and cannot be undone", () => {
  const sheet = new Sheet(form({ value: "1,2 3,4", shape: "line" }));
  assert.deepEqual(sheet.points, [[1, 2], [3, 4]]);
  assert.equal(sheet.canUndo, false);
});

test("the shape is the field's, or the last that the form takes", () => {
  assert.equal(new Sheet(form({ shape: "line" })).shape, "line");
  assert.equal(new Sheet(form({})).shape, "path");
  assert.equal(new Sheet(form({ shape: "box" })).shape, "path");
});

test("points that are put stand in the field, undo takes them out", () => {
  const sheet = new Sheet(form({ shape: "line" }));
  sheet.put([[1, 2]]);
  assert.equal(sheet.field.value, "1,2");
  sheet.undo();
  assert.equal(sheet.field.value, "");
});

test("typing changes the drawing and can be undone", () => {
  const sheet = new Sheet(form({ shape: "line", value: "1,2 3,4" }));
  sheet.field.value = "1,2 3,5";
  sheet.typed();
  assert.deepEqual(sheet.points[1], [3, 5]);
  sheet.undo();
  assert.equal(sheet.field.value, "1,2 3,4");
});

test("what cannot be read stays in the field, is explained and changes no drawing", () => {
  const sheet = new Sheet(form({ shape: "line", value: "1,2 3,4" }));
  sheet.field.value = "1,2 3;4";
  sheet.typed();
  assert.deepEqual(sheet.points, [[1, 2], [3, 4]]);
  assert.equal(sheet.field.value, "1,2 3;4");
  assert.match(sheet.field.message, /“3;4” is no point/);
});

test("a shape that lacks points says so before anything is sent, an empty one is the server's matter", () => {
  const sheet = new Sheet(form({ shape: "line", value: "1,2" }));
  assert.match(sheet.field.message, /Add 1 more/);
  sheet.put([]);
  assert.equal(sheet.field.message, "");
});

/** A form with a second field that takes points, and what holds them both. */
function partWithTwo() {
  const held = form({ value: "1,2 3,4", shape: "line", name: "Measure" });
  const slot = { value: "5,5 6,5 6,9", dataset: { shapes: "polygon", name: "The slot" }, setCustomValidity() {} };
  held.querySelectorAll = () => [slot];
  return { held, slot, part: { querySelectorAll: () => [held] } };
}

test("a form with two fields of points has a sheet for each, with its own shape and name", () => {
  const [line, slot] = sheetsIn(partWithTwo().part);
  assert.deepEqual([line.shape, line.name], ["line", "Measure"]);
  assert.deepEqual([slot.shape, slot.name], ["polygon", "Measure: The slot"]);
  assert.deepEqual(slot.points, [[5, 5], [6, 5], [6, 9]]);
});

test("each sheet of a form knows the others, which are shown beside it", () => {
  const [line, slot] = sheetsIn(partWithTwo().part);
  assert.deepEqual([line.beside, slot.beside], [[slot], [line]]);
});

test("what is drawn for one field leaves the other alone", () => {
  const { part, held, slot } = partWithTwo();
  sheetsIn(part)[1].put([[7, 7]]);
  assert.deepEqual([slot.value, held.elements.points.value], ["7,7", "1,2 3,4"]);
});

test("whoever is in the second field means that one, elsewhere in the form the first", () => {
  const { part, held, slot } = partWithTwo();
  slot.form = held;
  const [line, other] = sheetsIn(part);
  assert.deepEqual([line.isMeantAt(slot), other.isMeantAt(slot)], [false, true]);
  assert.deepEqual([line.isMeantAt({ form: held }), other.isMeantAt({ form: held })], [true, false]);
});
