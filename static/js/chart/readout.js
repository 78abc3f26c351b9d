/** What the cursors read: a small table for the eyes, and a sentence, not too often, for the ears. */
import { differenceText, quantityText, timeText } from "../lib/quantity-text.js";
import { nearest } from "../lib/samples.js";
import { say } from "../lib/say.js";

const PAUSE = 500;      // ms: while a key repeats nobody can listen to every sample
const EMPTY = "–";

export class Readout {
  element = document.createElement("div");
  said = status("log-said");         // of the view, and of what went wrong
  heard = status("off");             // of the cursors: the eyes have the table
  #table = document.createElement("table");
  #later = 0;

  constructor() {
    this.element.className = "log-readout";
    this.element.append(this.#table);
  }

  /** @param {number[]} times at samples of `rows` */
  show(rows, times, view) {
    this.element.toggleAttribute("data-empty", !times.length);
    const indices = times.map((time) => nearest(rows.time, time));
    const body = document.createElement("tbody");
    body.append(timeRow(times, view), ...rows.channels.map((channel) => channelRow(channel, indices)));
    this.#table.replaceChildren(caption(), headRow(), body);
  }

  /** The last thing said within a pause is the one that is heard. */
  say(text) {
    this.#after(() => (this.said.textContent = text));
  }

  read(text) {
    this.#after(() => (this.heard.textContent = text));
  }

  /** At once: what cannot wait. */
  tell(text) {
    clearTimeout(this.#later);
    this.said.textContent = text;
  }

  stop() {
    clearTimeout(this.#later);
  }

  #after(act) {
    clearTimeout(this.#later);
    this.#later = setTimeout(act, PAUSE);
  }
}

/** The sentence for one or two cursors. */
export function sentence(rows, times, view) {
  const last = times.at(-1);
  if (last === undefined) return "";
  const index = nearest(rows.time, last);
  const values = rows.channels.map(({ label, unit, step, values }) =>
    `${label} ${quantityText(values[index], unit, step)}`);
  const apart = times.length === 2 ? ` ${say("Difference: {apart}.", { apart: apartText(times) })}` : "";
  return `${timeText(last, view)}: ${values.join(", ")}.${apart}`;
}

/** Time between two cursors, and the frequency of which that is the period. */
export function apartText([one, other]) {
  const apart = other - one;
  const between = differenceText(apart, "s");
  return apart === 0 ? between : `${between}, 1/\u2060Δt ${quantityText(1 / Math.abs(apart), "Hz")}`;
}

function timeRow(times, view) {
  const texts = [0, 1].map((i) => (times[i] === undefined ? EMPTY : timeText(times[i], view)));
  return row(say("Time"), [...texts, times.length === 2 ? apartText(times) : EMPTY]);
}

function channelRow({ label, unit, step, values }, indices) {
  const read = indices.map((index) => values[index] ?? null);
  const texts = [0, 1].map((i) => (i < read.length ? quantityText(read[i], unit, step) : EMPTY));
  const known = read.length === 2 && read.every((value) => value !== null);
  return row(label, [...texts, known ? differenceText(read[1] - read[0], unit, step) : EMPTY]);
}

function row(name, texts) {
  const line = document.createElement("tr");
  line.append(cell("th", name, { scope: "row" }),
    ...texts.map((text) => cell("td", text, { className: "num" })));
  return line;
}

function headRow() {
  const head = document.createElement("thead");
  const line = document.createElement("tr");
  const names = [say("Reading"), say("Cursor 1"), say("Cursor 2"), "2 − 1"];
  line.append(...names.map((name) => cell("th", name, { scope: "col" })));
  head.append(line);
  return head;
}

function status(className) {
  const part = Object.assign(document.createElement("p"), { className });
  part.setAttribute("role", "status");
  return part;
}

const caption = () => cell("caption", say("What the cursors read"), { className: "off" });

const cell = (name, textContent, properties) =>
  Object.assign(document.createElement(name), { textContent, ...properties });
