/** The lines: one canvas for each quantity, all over one axis of time. */
import { printed, timeTicks } from "../lib/time-ticks.js";
import { svg } from "../annotator/svg.js";

export const LEFT = 52;         // px beside a canvas, for the numbers of its levels
export const RIGHT = 12;
const TOP = 8;
const FOOT = 30;
const NARROW = 480;
// As `figures/curves.py` draws them.
const DASHES = [[], [7, 4], [1.5, 4], [12, 4, 1.5, 4], [3, 3], [12, 4, 4, 4]];

export class Panels {
  element = document.createElement("div");
  #library;
  #plots = [];
  #groups = [];
  #view = [0, 1];
  #probe = document.createElement("span");
  #colours = {};

  constructor(library) {
    this.#library = library;
    this.element.className = "log-panels";
    this.#probe.className = "log-probe";
    this.element.append(this.#probe);
  }

  /** @param {import("./source.js").Rows} rows */
  show(rows, view) {
    this.#view = view;
    this.#readColours();
    const groups = grouped(rows.channels);
    if (groups.map(({ title }) => title).join() !== this.#groups.map(({ title }) => title).join()) {
      this.#make(groups);
    }
    this.#groups = groups;
    groups.forEach((group, i) =>
      this.#plots[i].setData([rows.time, ...group.channels.map(({ values }) => values)]));
  }

  set view(view) {
    this.#view = view;
    for (const plot of this.#plots) plot.setScale("x", { min: view[0], max: view[1] });
  }

  /** After the colours of the page changed. */
  recolour() {
    this.#readColours();
    for (const plot of this.#plots) plot.redraw(false, true);
  }

  resize() {
    const width = this.element.clientWidth;
    if (!width) return;
    this.#plots.forEach((plot, i) => plot.setSize({ width, height: this.#height(i) }));
  }

  remove() {
    for (const plot of this.#plots) plot.destroy();
    this.#plots = [];
    this.element.remove();
  }

  /** How many points across are worth asking for. */
  get points() {
    const channels = this.#groups.reduce((sum, group) => sum + group.channels.length, 0);
    return Math.round(2 * Math.max(this.element.clientWidth, 300) * Math.max(channels, 1));
  }

  #make(groups) {
    for (const plot of this.#plots) plot.destroy();
    this.element.replaceChildren(this.#probe);
    this.#plots = groups.map((group, i) => {
      const part = document.createElement("div");
      part.className = "log-panel";
      part.append(head(group));
      this.element.append(part);
      return new this.#library(this.#options(group, i, groups.length), null, part);
    });
  }

  #height(index) {
    const plot = this.element.clientWidth < NARROW ? 116 : 132;
    return plot + TOP + (index === this.#plots.length - 1 ? FOOT : 6);
  }

  #options(group, index, count) {
    const isLast = index === count - 1;
    return {
      width: Math.max(this.element.clientWidth, 200),
      height: (this.element.clientWidth < NARROW ? 116 : 132) + TOP + (isLast ? FOOT : 6),
      padding: [TOP, RIGHT, isLast ? 0 : 6, 0],
      legend: { show: false },
      cursor: { show: false },
      scales: {
        x: { time: false, range: () => this.#view },
        y: { range: (_, low, high) => levels(low, high, group.channels) },
      },
      axes: [this.#timeAxis(isLast), this.#levelAxis()],
      series: [{}, ...group.channels.map((_, i) => this.#series(i))],
    };
  }

  #timeAxis(isLast) {
    return {
      ...this.#axis(), size: isLast ? FOOT : 0,
      splits: (plot) => this.#ticks(plot).ticks.map(({ at }) => at),
      values: (plot) => (isLast ? labels(this.#ticks(plot)) : []),
    };
  }

  #ticks(plot) {
    return ticksThatFit(this.#view, plot.width - LEFT - RIGHT);
  }

  #levelAxis() {
    return {
      ...this.#axis(), size: LEFT, space: 30,
      values: (_, splits, __, ___, step) => splits.map((level) => printed(level, decimals(step))),
    };
  }

  #axis() {
    return {
      stroke: () => this.#colours.quiet, font: `12px ${this.#colours.font}`,
      grid: { stroke: () => this.#colours.rule, width: 1 }, ticks: { show: false }, gap: 6,
    };
  }

  #series(index) {
    const stroke = () => this.#colours.ink;
    return {
      stroke, pxAlign: 0, width: index < DASHES.length ? 1.6 : 0.9, dash: DASHES[index % DASHES.length],
      points: { stroke, fill: stroke, size: 5 },
    };
  }

  // A canvas knows no custom properties: probes in the page's colours tell what they are.
  #readColours() {
    for (const name of ["ink", "quiet", "rule"]) {
      this.#probe.dataset.colour = name;
      this.#colours[name] = getComputedStyle(this.#probe).color;
    }
    this.#colours.font = getComputedStyle(this.element).fontFamily;
  }
}

/** Channels by panel, in the order of the file. */
export function grouped(channels) {
  const groups = new Map();
  for (const channel of channels) {
    if (!groups.has(channel.panel)) {
      groups.set(channel.panel, { title: channel.panel, unit: channel.unit, channels: [] });
    }
    groups.get(channel.panel).channels.push(channel);
  }
  return [...groups.values()];
}

/** Some room above and below; noise of the last digit does not fill the panel. */
function levels(low, high, channels) {
  if (low === null || low === undefined) return [0, 1];
  const step = Math.max(0, ...channels.map((channel) => channel.step || 0));
  const least = Math.max(10 * step, Math.abs(high) * 1e-6, 1e-12);
  const room = Math.max((high - low) * 0.08, (least - (high - low)) / 2);
  return [low - room, high + room];
}

const DIGIT = 7.5;      // px
const APART = 20;

/** As many ticks as their numbers leave room for. */
export function ticksThatFit(view, width) {
  for (let most = 10; ; most -= 1) {
    const found = timeTicks(...view, most);
    const taken = found.ticks.reduce((sum, { label }) => sum + DIGIT * label.length + APART, 0);
    if (taken <= width || most === 2) return found;
  }
}

/** As many as the step has, so that no number of the axis is rounded: 0.025 has three. */
export function decimals(step) {
  let count = 0;
  while (count < 12 && Math.abs(step * 10 ** count - Math.round(step * 10 ** count)) > 1e-6) count += 1;
  return count;
}

const labels = ({ unit, ticks }) =>
  ticks.map(({ label }, i) => (i === ticks.length - 1 ? `${label}\u202f${unit}` : label));

function head({ title, unit, channels }) {
  const part = document.createElement("p");
  part.className = "log-panel-head";
  const name = document.createElement("b");
  name.textContent = `${title}, ${unit}`;
  part.append(name);
  if (channels.length > 1) part.append(...channels.map(({ label }, i) => key(label, i)));
  return part;
}

function key(label, index) {
  const entry = document.createElement("span");
  const line = svg("line", { x1: 0, x2: 28, y1: 6, y2: 6, stroke: "currentColor" });
  line.setAttribute("stroke-width", index < DASHES.length ? 1.6 : 0.9);
  line.setAttribute("stroke-dasharray", DASHES[index % DASHES.length].join(" "));
  line.setAttribute("stroke-linecap", "round");
  entry.append(svg("svg", { width: 28, height: 12, "aria-hidden": "true" }, line), label);
  return entry;
}
