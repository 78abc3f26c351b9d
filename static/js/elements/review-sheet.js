/**
 * Saves each decision of a review as it is made, and lets it be made by single keys.
 *
 *   <review-sheet data-decide="/reviews/7/decide/" data-review="12">
 *     <form method="post">
 *       <div data-progress>…</div> <div data-keys hidden></div>
 *       <p role="status" data-aloud></p>
 *       <article class="item" data-ref="measurement/mass" data-open>
 *         <div data-said>…</div>
 *         <fieldset> radios …-decision, textarea …-reason, <p data-refused hidden>,
 *           <button name="only" value="measurement/mass">Save</button> </fieldset>
 *       </article>
 *     </form>
 *   </review-sheet>
 *   <div data-sides>…</div>   anywhere on the page
 *
 * Without it the form sends all that is chosen. What cannot be sent is kept on this device, said,
 * and sent when the line is back. Tells `decision-saved` {ref}, which bubbles.
 */
import { asked, placeOf } from "../lib/review-keys.js";
import { keptDecisions } from "../lib/kept-decisions.js";
import { say } from "../lib/say.js";

const OFF = "review-keys-off";

export class ReviewSheetElement extends HTMLElement {
  #form = null;
  #kept = null;
  #stop = null;
  #sending = Promise.resolve();
  #isOff = false;

  static define(tag = "review-sheet") {
    customElements.define(tag, this);
  }

  connectedCallback() {
    this.#stop = new AbortController();
    const options = { signal: this.#stop.signal };
    this.#form = this.querySelector("form");
    this.#kept = keptDecisions(localStorage, `${document.body.dataset.person}:${this.dataset.review}`);
    this.#isOff = readOff();
    this.#offerKeys();
    this.#rove(this.#items[0]);
    this.#form.addEventListener("submit", (event) => this.#submitted(event), options);
    this.#form.addEventListener("change", (event) => this.#changed(event.target), options);
    this.#form.addEventListener("focusin", (event) => this.#rove(itemOf(event.target)), options);
    this.#form.addEventListener("keydown", (event) => this.#pressed(event), options);
    this.addEventListener("click", (event) => this.#clicked(event), options);
    window.addEventListener("online", () => this.#sendKept(), options);
    this.#sendKept();
  }

  disconnectedCallback() {
    this.#stop?.abort();
  }

  get #items() {
    return [...this.querySelectorAll(".item")];
  }

  // ---- keys

  #offerKeys() {
    const place = this.querySelector("[data-keys]");
    const label = document.createElement("label");
    const box = document.createElement("input");
    box.type = "checkbox";
    box.checked = !this.#isOff;
    label.className = "tick";
    label.append(box, say("Single keys, while a row has the focus"));
    box.addEventListener("change", () => this.#switchKeys(!box.checked),
      { signal: this.#stop.signal });
    place.className = "keys";
    place.replaceChildren(label, keyList());
    place.hidden = false;
  }

  #switchKeys(isOff) {
    this.#isOff = isOff;
    writeOff(isOff);
    this.#say(isOff ? say("Single keys are off; the arrow keys go on working.") : say("Single keys are on."));
  }

  /** One item at a time is a stop of the tabulator. */
  #rove(item) {
    if (!item) return;
    for (const each of this.#items) each.tabIndex = each === item ? 0 : -1;
  }

  #pressed(event) {
    const item = itemOf(event.target);
    if (event.key === "Enter" && (event.ctrlKey || event.metaKey) && item) {
      event.preventDefault();
      return this.#save(item);
    }
    if (event.key === "Escape" && item && event.target !== item) return item.focus();
    const action = asked(event, { onItem: event.target === item, isOff: this.#isOff });
    if (!action) return;
    event.preventDefault();
    this.#act(action, item);
  }

  #act(action, item) {
    if (action === say("confirm")) return this.#choose(item, "confirmed");
    if (action === say("dispute")) return this.#choose(item, "disputed");
    if (action === say("measure")) return this.#follow(item.querySelector("[data-measure]"));
    if (action === "open") return this.#follow(item.querySelector(".seen a"));
    this.#go(action, item);
  }

  #go(where, item) {
    const items = this.#items;
    const at = placeOf(where, items.map((each) => "open" in each.dataset), items.indexOf(item));
    if (at >= 0) return items[at].focus();
    if (where === "undecided") return this.#goElsewhere();
    this.#say(where === "next" ? say("This is the last row.") : say("This is the first row."));
  }

  #goElsewhere() {
    this.#say(say("Nothing is left to decide here."));
    document.querySelector("#close textarea")?.focus();
  }

  #follow(link) {
    if (link) link.click();
    else this.#say(say("There is nothing of that kind at this row."));
  }

  #clicked(event) {
    const link = event.target.closest("[data-next]");
    const item = link && document.getElementById(link.hash.slice(1));
    if (!item?.matches(".item")) return;
    event.preventDefault();
    item.focus();
  }

  // ---- decisions

  #choose(item, decision) {
    const radio = item.querySelector(`[type=radio][value=${decision}]`);
    if (!radio) return this.#say(say("Nothing is asked of you at this row."));
    radio.checked = true;
    this.#changed(radio);
  }

  #changed(field) {
    if (field.type !== "radio") return;
    const item = itemOf(field);
    const reason = item.querySelector("textarea");
    if (field.value !== "disputed" || reason.value.trim()) return this.#save(item);
    reason.focus();
    this.#say(say("Write the reason; Control and Enter saves it."));
  }

  #submitted(event) {
    const item = event.submitter?.name === "only" && itemOf(event.submitter);
    if (!item) return;
    event.preventDefault();
    this.#save(item);
  }

  #save(item) {
    const ref = item.dataset.ref;
    const fields = fieldsOf(new FormData(this.#form), ref);
    if (!fields[`${ref}-decision`]) return this.#say(say("Choose a decision first."));
    return this.#queue({ ref, fields, at: new Date().toISOString() });
  }

  /** One after the other, so that the newest word is the last one that arrives. */
  #queue(decision) {
    this.#sending = this.#sending.then(() => this.#send(decision));
    return this.#sending;
  }

  async #send(decision) {
    const item = this.#itemAt(decision.ref);
    item?.setAttribute("aria-busy", "true");
    try {
      const answer = await fetch(this.dataset.decide, {
        method: "POST", body: this.#body(decision), headers: { Accept: "application/json" },
      });
      await this.#answered(decision, item, answer);
    } catch (error) {
      if (!(error instanceof TypeError)) throw error;
      this.#keep(decision, item);
    } finally {
      item?.removeAttribute("aria-busy");
    }
  }

  #body(decision) {
    const body = new FormData();
    body.set("csrfmiddlewaretoken", this.#form.elements.csrfmiddlewaretoken.value);
    body.set("only", decision.ref);
    for (const [name, value] of Object.entries(decision.fields)) body.set(name, value);
    return body;
  }

  async #answered(decision, item, answer) {
    const isOurs = answer.headers.get("Content-Type")?.startsWith("application/json");
    if (answer.status === 422 && isOurs) return this.#refused(decision, item, await answer.json());
    if (!answer.ok || !isOurs) return this.#keep(decision, item, whyNot(answer));
    this.#saved(decision, item, await answer.json());
  }

  #saved(decision, item, parts) {
    this.#kept.forget(decision.ref);
    if (item) {
      delete item.dataset.open;
      delete item.dataset.kept;
      replace(item.querySelector("[data-said]"), parts.said);
      tell(item, "");
    }
    replace(this.querySelector("[data-progress]"), parts.progress);
    replace(document.querySelector("[data-sides]"), parts.sides);
    this.#say(say("Saved. {told}.", { told: parts.told }));
    this.dispatchEvent(new CustomEvent("decision-saved", {
      bubbles: true, detail: { ref: decision.ref } }));
  }

  #refused(decision, item, { errors, isStale }) {
    this.#kept.forget(decision.ref);
    const words = Object.values(errors).join(" ");
    if (item) tell(item, words);
    if (isStale && item) offerReload(item.querySelector("[data-refused]"));
    this.#say(say("Not saved. {words}", { words }));
  }

  #keep(decision, item, why = say("The site cannot be reached.")) {
    const isKept = this.#kept.keep(decision);
    if (item && isKept) item.dataset.kept = "";
    this.#say(isKept
      ? say("{why} Your decision is kept on this device and sent when the site can be reached.", { why })
      : say("{why} This device keeps nothing: save once more when the line is back.", { why }));
  }

  #sendKept() {
    for (const decision of this.#kept.all()) {
      this.#putBack(decision);
      this.#queue(decision);
    }
  }

  /** What was kept stands in its fields again, so that a refusal loses nothing. */
  #putBack({ ref, fields }) {
    for (const field of this.#itemAt(ref)?.querySelectorAll("[name]") ?? []) {
      if (field.type === "radio") field.checked = fields[field.name] === field.value;
      else if (field.type === "textarea") field.value = fields[field.name] ?? field.value;
    }
  }

  #itemAt(ref) {
    return this.#items.find((each) => each.dataset.ref === ref);
  }

  #say(words) {
    this.querySelector("[data-aloud]").textContent = words;
  }
}

function whyNot(answer) {
  return answer.redirected ? say("You are signed out: sign in again in another tab.")
    : say("The site answered {status}.", { status: answer.status });
}

const itemOf = (node) => node.closest(".item");

function fieldsOf(entries, ref) {
  return Object.fromEntries([...entries].filter(([name]) => name.startsWith(`${ref}-`)));
}

function replace(place, html) {
  const parsed = new DOMParser().parseFromString(html, "text/html");
  place?.replaceChildren(...parsed.body.childNodes);
}

function tell(item, words) {
  const place = item.querySelector("[data-refused]");
  place.textContent = words;
  place.hidden = !words;
}

function offerReload(place) {
  const link = document.createElement("a");
  link.href = location.href;
  link.textContent = say("Load the page again");
  place.append(" ", link);
}

function keyList() {
  const list = document.createElement("p");
  const told = [["j k", say("next, previous")], ["n", say("next undecided")], ["c", say("confirm")],
    ["d", say("dispute")], ["m", say("measure")], ["o", say("photo or log")], ["Esc", say("back to the row")]];
  for (const [key, words] of told) {
    const sign = document.createElement("kbd");
    sign.textContent = key;
    list.append(sign, ` ${words} `);
  }
  return list;
}

function readOff() {
  try {
    return localStorage.getItem(OFF) === "yes";
  } catch {
    return false;
  }
}

function writeOff(isOff) {
  try {
    localStorage.setItem(OFF, isOff ? "yes" : "no");
  } catch {
    // A browser that keeps nothing asks anew on each page.
  }
}
