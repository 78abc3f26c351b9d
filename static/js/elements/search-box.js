import { cutAfter, pointedAt } from "../lib/option-list.js";
import { say } from "../lib/say.js";

const PAUSE = 180;          // ms without typing until suggestions are asked for
const LEAST = 2;
let made = 0;

/**
 * Offers how a search may go on, below the box; without it the box works the same.
 *
 *   <search-box src="/units/suggestions.json">
 *     <input type="search" name="q" id="q">        in a form, which is sent when one is chosen
 *   </search-box>
 *
 * The ARIA pattern of an editable combobox with a list; focus stays in the box.
 */
export class SearchBoxElement extends HTMLElement {
  #input;
  #list;
  #told;
  #at = -1;
  #timer = 0;
  #asking = null;
  #leaving = null;

  connectedCallback() {
    this.#input = this.querySelector("input");
    if (!this.#input) return;
    this.#build();
    this.#leaving = new AbortController();
    const { signal } = this.#leaving;
    this.#input.addEventListener("input", () => this.#soon(), { signal });
    this.#input.addEventListener("keydown", (event) => this.#key(event), { signal });
    this.#input.addEventListener("blur", () => this.#close(), { signal });
    this.#list.addEventListener("pointerdown", (event) => event.preventDefault(), { signal });
    this.#list.addEventListener("click", (event) => this.#clicked(event), { signal });
    if (this.#input.value !== this.#input.defaultValue) this.#soon();     // typed before this came
  }

  disconnectedCallback() {
    this.#leaving?.abort();
    this.#asking?.abort();
    clearTimeout(this.#timer);
    this.#list?.remove();
    this.#told?.remove();
  }

  #build() {
    const id = `suggestions-${++made}`;
    this.#list = Object.assign(document.createElement("ul"), { id, hidden: true });
    this.#list.setAttribute("role", "listbox");
    this.#list.setAttribute("aria-label", say("Suggestions"));
    this.#told = Object.assign(document.createElement("span"), { className: "off" });
    this.#told.setAttribute("role", "status");
    this.append(this.#list, this.#told);
    this.#input.autocomplete = "off";
    for (const [name, value] of Object.entries({
      role: "combobox", "aria-autocomplete": "list", "aria-expanded": "false", "aria-controls": id,
    })) this.#input.setAttribute(name, value);
  }

  #soon() {
    clearTimeout(this.#timer);
    this.#asking?.abort();
    if (this.#input.value.trim().length < LEAST) return this.#close();
    this.#timer = setTimeout(() => this.#ask(), PAUSE);
  }

  async #ask() {
    this.#asking = new AbortController();
    const address = new URL(this.getAttribute("src"), location.href);
    address.searchParams.set("q", this.#input.value);
    try {
      const answer = await fetch(address, { signal: this.#asking.signal });
      if (answer.ok) this.#show((await answer.json()).suggestions);
    } catch {
      // Broken off by the next letter, or no network: the box works on without.
    }
  }

  #show(found) {
    const typed = this.#input.value.trim();
    this.#list.replaceChildren(...found.map((one, n) => option(`${this.#list.id}-${n}`, one, typed)));
    this.#point(-1);
    if (!found.length || document.activeElement !== this.#input) return this.#close();
    this.#list.hidden = false;
    this.#input.setAttribute("aria-expanded", "true");
    this.#told.textContent = found.length === 1 ? say("1 suggestion, arrow keys")
      : say("{n} suggestions, arrow keys", { n: found.length });
  }

  #close() {
    clearTimeout(this.#timer);
    this.#list.hidden = true;
    this.#point(-1);
    this.#input.setAttribute("aria-expanded", "false");
    this.#told.textContent = "";
  }

  #key(event) {
    if (this.#list.hidden) return;
    const at = pointedAt(event.key, this.#at, this.#list.children.length);
    if (at !== null) {
      event.preventDefault();
      this.#point(at);
    } else if (event.key === "Escape") {
      event.preventDefault();             // the box keeps what was typed
      this.#close();
    } else if (event.key === "Enter" && this.#at >= 0) {
      event.preventDefault();
      this.#choose(this.#list.children[this.#at]);
    }
  }

  #point(at) {
    this.#at = at;
    for (const [n, row] of [...this.#list.children].entries()) {
      row.setAttribute("aria-selected", String(n === at));
    }
    const row = this.#list.children[at];
    if (row) this.#input.setAttribute("aria-activedescendant", row.id);
    else this.#input.removeAttribute("aria-activedescendant");
    row?.scrollIntoView({ block: "nearest" });
  }

  #clicked(event) {
    const row = event.target.closest("[role=option]");
    if (row) this.#choose(row);
  }

  #choose(row) {
    this.#input.value = row.dataset.text;
    this.#close();
    this.#input.form?.requestSubmit();
  }

  static define(tag = "search-box") {
    customElements.define(tag, this);
  }
}

function option(id, { text }, typed) {
  const row = Object.assign(document.createElement("li"), { id });
  row.setAttribute("role", "option");
  row.dataset.text = text;
  const [known, rest] = cutAfter(text, typed);
  const bold = document.createElement("b");
  bold.textContent = rest;
  row.append(known, bold);
  return row;
}
