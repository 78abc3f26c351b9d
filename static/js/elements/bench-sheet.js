/**
 * Keeps what is typed into its form on this device until the server has it, and sends it there when
 * the person pauses: the device forgets it when their session ends.
 *
 *   <bench-sheet sheet="12/ports" submission="9f2c…" acknowledged="71ab…" kept="03de…"><form>…</form></bench-sheet>
 *
 * `sheet` names unit and section, `submission` this page's form, `acknowledged` the forms that the
 * server saved since; `kept` is the form whose typed text the server itself keeps and shows here.
 */
import { changedNames, differs, fieldsOf, renumbered } from "../lib/kept-fields.js";
import { attempt, isStillHere, keptOf, nameOf } from "../lib/kept-here.js";
import { savedPlace } from "../sheet/saved-place.js";
import { say } from "../lib/say.js";

const PAUSE = 400;              // ms after the last key, until this device has it
const LONG_PAUSE = 20_000;      // … until the server has it

export class BenchSheetElement extends HTMLElement {
  #form = null;
  #timer = 0;
  #longTimer = 0;
  #sending = null;
  #isThere = false;       // whether the server has something of this form that is not saved
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
    document.addEventListener("signing-out", () => this.#keep(), options);
    this.#form.addEventListener("submit", (event) => this.#submitted(event), options);
    const isSaved = this.#isAcknowledged(savedPlace.submission());
    this.#forgetAcknowledged();
    this.#offer();
    this.querySelector("#errors")?.focus();
    if (isSaved) savedPlace.goBack(this.#form, document.querySelector("[role=status]:has(.notices)"));
    savedPlace.forget();
  }

  disconnectedCallback() {
    clearTimeout(this.#timer);
    clearTimeout(this.#longTimer);
    this.#stop?.abort();
  }

  get #person() {
    return document.body.dataset.person;
  }

  get #name() {
    return nameOf("bench-sheet", this.#person, this.getAttribute("sheet"));
  }

  #typed(event) {
    chooseRecorded(event.target);
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => this.#keep(), PAUSE);
    clearTimeout(this.#longTimer);
    this.#longTimer = setTimeout(() => this.#send(), LONG_PAUSE);
  }

  /** What goes to be kept and what goes to be saved must not overtake each other. */
  #submitted(event) {
    clearTimeout(this.#longTimer);
    if (event.submitter?.name === "discard") this.#throwAway();
    this.#keep();
    if (event.submitter?.name === "save") {
      savedPlace.note(this.getAttribute("submission"), event.submitter);
    }
    if (!this.#sending) return;
    event.preventDefault();
    this.#sending.then(() => this.#form.requestSubmit(event.submitter));
  }

  /** What the server throws away is not offered again by the device. */
  #throwAway() {
    clearTimeout(this.#timer);
    this.#drawn = fieldsOf(new FormData(this.#form));
    forget(this.#name);
  }

  async #send() {
    const fields = fieldsOf(new FormData(this.#form));
    const isChanged = changedNames(this.#drawn, fields).length > 0;
    if (!isChanged && !this.#isThere) return;
    const body = new URLSearchParams(new FormData(this.#form));
    body.append(isChanged || this.hasAttribute("kept") ? "keep" : "discard", "yes");
    this.#sending = fetch(location.pathname, { method: "POST", body, redirect: "manual" })
      .then((answer) => { this.#isThere = isChanged && answer.status === 204; }, () => {});
    await this.#sending;
    this.#sending = null;
  }

  #keep() {
    const fields = fieldsOf(new FormData(this.#form));
    if (!changedNames(this.#drawn, fields).length) return;
    if (!isStillHere(localStorage, this.#person)) return;
    const submission = this.getAttribute("submission");
    write(this.#name, { submission, fields, at: new Date().toISOString() });
  }

  #isAcknowledged(submission) {
    return (this.getAttribute("acknowledged") ?? "").split(" ").includes(submission);
  }

  #forgetAcknowledged() {
    for (const name of keptOf(localStorage, "bench-sheet", this.#person)) {
      if (this.#isAcknowledged(read(name)?.submission)) forget(name);
    }
  }

  #offer() {
    const found = read(this.#name);
    if (!found) return;
    const kept = renumbered(found.fields, this.#drawn);
    if (!differs(kept, this.#drawn)) return forget(this.#name);
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

const read = (name) => attempt(() => JSON.parse(localStorage.getItem(name)));
const write = (name, value) => attempt(() => localStorage.setItem(name, JSON.stringify(value)));
const forget = (name) => attempt(() => localStorage.removeItem(name));
