/** Buttons and the explanation that stand beside a chart; they need a script, so it makes them. */
import { say } from "../lib/say.js";

const HELP = [
  say("Click or tap: place a cursor; the next place gives the difference, the third begins anew."),
  say("Drag with the mouse over a span to zoom to it; with Shift, or with a finger, to move along."),
  say("Two fingers, or the wheel with Ctrl: zoom."),
  say("Left and right arrow: cursor to the next sample, with Shift ten further. Home and End: to the ends of the view."),
  say("+ and − zoom, Page Up and Page Down move along, 0 shows the whole log. Enter places the cursor, Escape clears."),
];
const SPAN_HELP = say("Tab goes on to the two ends of the span: drag them, or move them with the arrow keys, with Shift ten times as far.");

let helps = 0;

/** @typedef {{name: string, label: string, title?: string, act: () => void}} Control */

/** @param {Control[][]} groups */
export function madeControls(groups, signal) {
  const bar = made("div", { className: "log-controls" });
  const buttons = {};
  for (const group of groups) {
    const part = made("div");
    for (const { name, label, title, act } of group) {
      const button = made("button", { type: "button", className: "second", textContent: label });
      if (title) button.ariaLabel = button.title = title;
      button.addEventListener("click", act, { signal });
      part.append((buttons[name] = button));
    }
    bar.append(part);
  }
  return { bar, buttons };
}

/** @returns {HTMLElement} with a list whose id others may refer to */
export function madeHelp(hasSpan) {
  const list = made("ul", { id: `log-help-${(helps += 1)}` });
  const lines = hasSpan ? [...HELP, SPAN_HELP] : HELP;
  list.append(...lines.map((textContent) => made("li", { textContent })));
  const help = made("details", { className: "log-help" });
  help.append(made("summary", { textContent: say("Keys and fingers") }), list);
  return help;
}

/** A button beside each result that brings its span into view. */
export function madeShowButton(letter, act, signal) {
  const button = made("button", { type: "button", className: "plain log-show", textContent: say("Show") });
  button.ariaLabel = say("Show {letter} in the chart", { letter });
  button.addEventListener("click", act, { signal });
  return button;
}

const made = (name, properties = {}) => Object.assign(document.createElement(name), properties);
