/**
 * Keeps what is typed into its form on this device until the server has it.
 *
 *   <bench-sheet sheet="12/ports" submission="9f2c…" acknowledged="71ab…" kept><form>…</form></bench-sheet>
 *
 * `sheet` names unit and section, `submission` this page's form, `acknowledged` the forms that the
 * server saved since; `kept` says that the server itself keeps what is typed here.
 */
import { changedNames, fieldsOf, renumbered } from "../lib/kept-fields.js";
import { say } from "../lib/say.js";

const PREFIX = "bench-sheet:";
const PAUSE = 400;      // ms after the last key

export class BenchSheetElement extends HTMLElement {
  #form = null;
  #timer = 0;
  #stop = null;
  #drawn = {};

  static define(tag = "bench-sheet") {
    customElements.define(tag, this);
  }

  connectedCallback() {
    this.#form = this.querySelector("form");
    this.#drawn = fieldsOf(new FormData(this.#form));
    this.#stop = new AbortController();
    const options = { signal: this.#stop.signal };
    this.#form.addEventListener("input", (event) => this.#typed(event), options);
    window.addEventListener("pagehide", () => this.#keep(), options);
    this.#form.addEventListener("submit", () => this.#keep(), options);
    this.#forgetAcknowledged();
    this.#offer();
    this.querySelector("#errors")?.focus();
  }

  disconnectedCallback() {
    clearTimeout(this.#timer);
    this.#stop?.abort();
  }

  get #name() {
    return PREFIX + this.getAttribute("sheet");
  }

  #typed(event) {
    chooseRecorded(event.target);
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => this.#keep(), PAUSE);
  }

  #keep() {
    const fields = fieldsOf(new FormData(this.#form));
    if (!changedNames(this.#drawn, fields).length) return;
    const submission = this.getAttribute("submission");
    write(this.#name, { submission, fields, at: new Date().toISOString() });
  }

  #forgetAcknowledged() {
    const saved = new Set((this.getAttribute("acknowledged") ?? "").split(" "));
    for (const name of stored()) {
      if (saved.has(read(name)?.submission)) forget(name);
    }
    if (this.hasAttribute("kept")) forget(this.#name);
  }

  #offer() {
    const found = read(this.#name);
    if (!found) return;
    const kept = renumbered(found.fields, this.#drawn);
    if (!changedNames(this.#drawn, kept).length) return forget(this.#name);
    this.#form.before(this.#bar(found, kept));
  }

  #bar(found, kept) {
    const bar = document.createElement("div");
    const text = document.createElement("p");
    bar.className = "restore";
    bar.setAttribute("role", "status");
    const when = found.at.slice(0, 16).replace("T", " ");
    text.textContent = say("This device kept what you typed here until {when} UTC. It is not saved.",
      { when });
    bar.append(text, this.#button(say("Put it back"), "", () => this.#restore(kept, bar)),
      this.#button(say("Throw it away"), "plain", () => this.#discard(bar)));
    return bar;
  }

  #button(label, style, act) {
    const button = document.createElement("button");
    button.type = "button";
    button.className = style;
    button.textContent = label;
    button.addEventListener("click", act, { signal: this.#stop.signal });
    return button;
  }

  #restore(kept, bar) {
    for (const field of this.#form.elements) {
      if (!field.name || field.type === "hidden" || field.type === "submit") continue;
      const value = kept[field.name];
      if (field.type === "radio" || field.type === "checkbox") field.checked = value === field.value;
      else if (value !== undefined) field.value = value;
    }
    bar.remove();
    this.dispatchEvent(new CustomEvent("sheet-restored", { bubbles: true }));
  }

  #discard(bar) {
    forget(this.#name);
    bar.remove();
  }
}

/** A value that is typed is recorded, unless the person has said otherwise. */
function chooseRecorded(field) {
  const row = /^(.+-\d+-)(value|marking|text)$/.exec(field.name)?.[1];
  if (!row || !field.value) return;
  const states = field.form.elements[`${row}state`];
  if (states && !states.value) states.value = "recorded";
}

// A browser may refuse storage (private windows, full disk): the sheet then works as without it.
function attempt(action) {
  try {
    return action();
  } catch {
    return null;
  }
}

const read = (name) => attempt(() => JSON.parse(localStorage.getItem(name)));
const write = (name, value) => attempt(() => localStorage.setItem(name, JSON.stringify(value)));
const forget = (name) => attempt(() => localStorage.removeItem(name));
const stored = () =>
  attempt(() => Object.keys(localStorage).filter((name) => name.startsWith(PREFIX))) ?? [];
