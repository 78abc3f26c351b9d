/**
 * Sends what was typed and not saved to the server before its form signs out, for this device forgets
 * it then.
 *
 *   <sign-out><form method="post" action="/sign-out/">…</form></sign-out>
 *
 * The server keeps it as typed. What cannot be sent is said, and a second press signs out without it.
 */
import { keptOf } from "../lib/kept-here.js";
import { say } from "../lib/say.js";

const PATIENCE = 5000;      // ms

export class SignOutElement extends HTMLElement {
  #stop = null;
  #isWarned = false;

  static define(tag = "sign-out") {
    customElements.define(tag, this);
  }

  connectedCallback() {
    this.#stop = new AbortController();
    this.querySelector("form").addEventListener("submit", (event) => this.#leaving(event),
      { signal: this.#stop.signal });
  }

  disconnectedCallback() {
    this.#stop?.abort();
  }

  #leaving(event) {
    const person = document.body.dataset.person;
    document.dispatchEvent(new Event("signing-out"));      // a sheet that is open keeps what it has
    const sheets = keptOf(localStorage, "bench-sheet", person);
    const waiting = keptOf(localStorage, "review", person);
    if (this.#isWarned || !(sheets.length + waiting.length)) return;
    event.preventDefault();
    this.#send(event.target, sheets, waiting.length);
  }

  async #send(form, sheets, waiting) {
    const token = new FormData(form).get("csrfmiddlewaretoken");
    const sent = await Promise.all(sheets.map((name) => keep(name, token)));
    if (sent.every(Boolean) && !waiting) return form.submit();
    this.#isWarned = true;
    this.#warn();
  }

  #warn() {
    const text = document.createElement("p");
    text.className = "notice";
    text.setAttribute("role", "alert");
    text.textContent = say("Something that you typed or decided could not be sent. Look at it first, or sign out once more: it is gone then.");
    document.querySelector("main").prepend(text);
  }
}

/** Whether there is nothing left to lose: it arrived, or its sheet is yours no more. */
async function keep(name, token) {
  const [, , sheet] = name.split(":");
  const { submission, fields } = JSON.parse(localStorage.getItem(name));
  try {
    const answer = await fetch(`/bench/${sheet}/`, {
      method: "POST", signal: AbortSignal.timeout(PATIENCE),
      body: new URLSearchParams({ ...fields, submission, csrfmiddlewaretoken: token, keep: "yes" }),
    });
    if (answer.status === 204) localStorage.removeItem(name);
    return answer.status === 204 || answer.status === 404;
  } catch {
    return false;
  }
}
