/** Buttons and the explanation that stand beside the picture; they need a script, so it makes them. */
import { say } from "../lib/say.js";

const HELP = [
  say("Click or tap: place a point. Drag a point to move it, drag the picture to move the picture."),
  say("Two fingers, or the wheel with Ctrl: zoom."),
  say("Arrow keys move the crosshair, with Shift ten times as far; Enter places a point."),
  say("Tab goes on to the points: arrow keys move one by a pixel, with Shift by ten; Delete removes it, Insert adds one after it."),
  say("Escape drops the drawing, Ctrl+Z undoes, Ctrl+Shift+Z does it again. + and − zoom, 0 shows the whole picture."),
];
const VIEWER_HELP = [HELP[1], say("Arrow keys move the picture. + and − zoom, 0 shows the whole picture.")];

/** How much closer one press brings the picture. */
export const CLOSER = 1.5;

let helps = 0;

/** @typedef {{name: string, label: string, title?: string, toggles?: boolean, act: () => void}} Control */

/**
 * @param {Control[][]} groups
 * @param {AbortSignal} signal
 * @returns {{bar: HTMLElement, buttons: Record<string, HTMLButtonElement>}}
 */
export function madeControls(groups, signal) {
  const bar = element("div", { className: "photo-controls" });
  const buttons = {};
  for (const group of groups) {
    const part = element("div");
    for (const control of group) part.append((buttons[control.name] = madeButton(control, signal)));
    bar.append(part);
  }
  return { bar, buttons };
}

function madeButton({ label, title, toggles, act }, signal) {
  const button = element("button", { type: "button", className: "second", textContent: label });
  if (title) button.ariaLabel = button.title = title;
  if (toggles !== undefined) button.ariaPressed = String(toggles);
  button.addEventListener("click", act, { signal });
  return button;
}

/** @returns {Control[]} */
export function zoomControls(camera) {
  return [
    { name: "out", label: "−", title: say("Zoom out"), act: () => camera.zoom(1 / CLOSER) },
    { name: "in", label: "+", title: say("Zoom in"), act: () => camera.zoom(CLOSER) },
    { name: "fit", label: say("Fit"), title: say("Fit: show the whole picture"), act: () => camera.whole() },
  ];
}

/** @returns {Control[]} none where the browser does not offer it */
export function fullScreenControls(part) {
  const act = () => (document.fullscreenElement ? document.exitFullscreen() : part.requestFullscreen());
  return document.fullscreenEnabled ? [{ name: "full", label: say("Full"), title: say("Full screen"), act }] : [];
}

/** Says and chooses which form the clicks on the picture go to. */
export function madeChooser(names, choose, signal) {
  const label = element("label", { className: "photo-chooser", textContent: say("The picture draws for") });
  const select = element("select");
  names.forEach((name, index) => select.add(new Option(name, String(index))));
  select.addEventListener("change", () => choose(select.selectedIndex), { signal });
  label.append(select);
  return { label, select };
}

/** @returns {HTMLElement} with a list whose id others may refer to */
export function madeHelp(drawing) {
  const lines = drawing ? HELP : VIEWER_HELP;
  const help = element("details", { className: "photo-help" });
  const list = element("ul", { id: `photo-help-${(helps += 1)}` });
  list.append(...lines.map((line) => element("li", { textContent: line })));
  help.append(element("summary", { textContent: say("Keys and fingers") }), list);
  return help;
}

const element = (name, properties = {}) => Object.assign(document.createElement(name), properties);
