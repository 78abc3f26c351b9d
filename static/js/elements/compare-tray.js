/**
 * Collects units from the links "Compare" of any page, kept for as long as the tab is open.
 *
 *   <compare-tray data-address="/compare/"></compare-tray>
 *   … <a class="to-compare" href="/compare/?units=12" data-unit="12" data-title="…">Compare</a>
 *
 * Without a script each link opens the page that asks for another unit. With it a link adds its
 * unit or takes it out, and the tray shows what is collected. A click with a modifier is a link's.
 * On the pages of a comparison, whose units bear data-compared, the tray takes over those and hides.
 */
import {
  LEAST, MOST, added, address, has, read, removed, words, written,
} from "../lib/compare-tray.js";
import { say } from "../lib/say.js";

const KEPT = "compare-tray";
const LINK = "a.to-compare[data-unit]";
const COMPARED = "[data-compared]";

export class CompareTrayElement extends HTMLElement {
  #units = [];
  #stop = null;
  #seen = null;
  #said = null;
  #list = null;
  #go = null;
  #focusAfter = null;

  static define(tag = "compare-tray") {
    customElements.define(tag, this);
  }

  connectedCallback() {
    if (this.#stop) return;
    this.#stop = new AbortController();
    const { signal } = this.#stop;
    this.#build();
    document.addEventListener("click", (event) => this.#clicked(event), { signal });
    document.addEventListener("keydown", (event) => this.#pressed(event), { signal });
    addEventListener("pageshow", () => this.#takeOver(), { signal });
    this.#seen = new MutationObserver(() => this.#mark());
    this.#seen.observe(document.querySelector("main") ?? document.body,
      { childList: true, subtree: true });
    this.#takeOver();
  }

  /** What the address compares is what is collected; on other pages what was kept is. */
  #takeOver() {
    const page = document.querySelectorAll(COMPARED);
    if (!page.length) return this.#show(read(keptText()));
    const units = [...page].map(({ dataset }) => (
      { key: dataset.compared, title: dataset.title }));
    return this.#keep(units);
  }

  disconnectedCallback() {
    this.#stop?.abort();
    this.#stop = null;
    this.#seen?.disconnect();
    this.replaceChildren();
  }

  #build() {
    const part = (name, text = "", cls = "") => {
      const made = document.createElement(name);
      made.textContent = text;
      if (cls) made.className = cls;
      return made;
    };
    this.setAttribute("role", "region");
    this.setAttribute("aria-label", say("Collected for a comparison"));
    const head = part("h2", say("To compare"));
    this.#said = part("p", "", "tray-said");
    this.#said.setAttribute("role", "status");
    this.#list = part("ul");
    this.#go = part("a", "", "button");
    const none = part("button", say("Take out all"), "plain");
    none.type = "button";
    none.addEventListener("click", () => this.#keep([]));
    const acts = part("div", "", "acts");
    acts.append(this.#go, none);
    // Folded: on a phone a list of six would cover the page that one collects from.
    const which = part("details");
    which.append(part("summary", say("Which")), this.#list);
    this.replaceChildren(head, this.#said, acts, which);
  }

  #clicked(event) {
    const link = event.target.closest?.(LINK);
    if (!link || event.ctrlKey || event.metaKey || event.shiftKey || event.altKey || event.button) {
      return;
    }
    event.preventDefault();
    this.#toggle(link);
  }

  /** A link that acts as a button answers the space bar as well. */
  #pressed(event) {
    if (event.key !== " " || !event.target.matches?.(LINK)) return;
    event.preventDefault();
    this.#toggle(event.target);
  }

  #toggle({ dataset: { unit, title } }) {
    if (has(this.#units, unit)) return this.#keep(removed(this.#units, unit));
    if (this.#units.length >= MOST) {
      this.#said.textContent = say("{most} units are collected already: take one out to make room.",
        { most: MOST });
      return undefined;
    }
    return this.#keep(added(this.#units, { key: unit, title: title || say("Unit {unit}", { unit }) }));
  }

  #keep(units) {
    try {
      sessionStorage.setItem(KEPT, written(units));
    } catch {
      // Storage may be refused: then it is collected for this page alone.
    }
    this.#show(units);
    this.dispatchEvent(new CustomEvent("comparison-changed", { bubbles: true, detail: units }));
  }

  #show(units) {
    this.#units = units;
    this.toggleAttribute("data-open", units.length > 0 && !document.querySelector(COMPARED));
    this.#said.textContent = words(units);
    this.#list.replaceChildren(...units.map((one) => this.#item(one)));
    this.#go.hidden = units.length < LEAST;
    this.#go.href = address(this.dataset.address, units);
    this.#go.textContent = say("Compare {n} units", { n: units.length });
    this.#mark();
    this.#keepFocus();
  }

  #item({ key, title }) {
    const item = document.createElement("li");
    const name = document.createElement("span");
    name.textContent = title;
    const button = document.createElement("button");
    button.type = "button";
    button.className = "plain";
    button.textContent = say("Remove");
    button.setAttribute("aria-label", `${say("Remove")} ${title}`);
    button.addEventListener("click", () => {
      this.#focusAfter = this.#units.findIndex((one) => one.key === key);
      this.#keep(removed(this.#units, key));
    });
    item.append(name, button);
    return item;
  }

  /** Whoever removed a unit by its button goes on at the next one. */
  #keepFocus() {
    if (this.#focusAfter === null) return;
    const buttons = this.#list.querySelectorAll("button");
    const next = buttons[Math.min(this.#focusAfter, buttons.length - 1)];
    this.#focusAfter = null;
    (next ?? document.querySelector(LINK) ?? document.querySelector("main"))?.focus();
  }

  /** Each link says whether its unit is collected. */
  #mark() {
    for (const link of document.querySelectorAll(LINK)) {
      const pressed = String(has(this.#units, link.dataset.unit));
      if (link.getAttribute("aria-pressed") === pressed) continue;
      link.setAttribute("role", "button");
      link.setAttribute("aria-pressed", pressed);
    }
  }
}

function keptText() {
  try {
    return sessionStorage.getItem(KEPT);
  } catch {
    return null;
  }
}
