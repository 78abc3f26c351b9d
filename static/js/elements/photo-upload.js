/**
 * Sends chosen or dropped files in blocks, each with its own progress and its own answer.
 *
 *   <photo-upload data-start="/bench/7/photos/uploads/" data-next="/bench/7/photos/">
 *     <form method="post" enctype="multipart/form-data">
 *       <input type="hidden" name="csrfmiddlewaretoken" value="…">
 *       <label>Stage <select name="stage">…</select></label>
 *       <label>Pictures <input type="file" name="photos" multiple accept="image/*"></label>
 *       <button>Send</button>
 *     </form>
 *   </photo-upload>
 *
 * The form's other fields are said at the start of each file. Sending begins with the choice, so the
 * button is hidden; without a script the form sends everything at once. Files of another kind are
 * called logs by `data-logs`. Tells `file-kept` {address} for each, which bubbles.
 */
import { svg } from "../annotator/svg.js";
import { say, sayNumber } from "../lib/say.js";
import { Interrupted, Refusal, freshState, sendInBlocks } from "../lib/upload-blocks.js";

const PATIENCE = 120_000;       // ms for one block: 1 MB over a very slow line
const MOST_READ = 100e6;        // bytes of a file that are read at once, for its digest
const NOT_SAID = new Set(["csrfmiddlewaretoken"]);
const PICTURES = {
  drop: say("You can also drop pictures here."), saved: say("1 picture saved"),
  severalSaved: (n) => say("{n} pictures saved", { n }), show: say("Show the picture"),
  showAll: (n) => say("Show the {n} pictures", { n }),
};
const LOGS = {
  drop: say("You can also drop logs here."), saved: say("1 log saved"),
  severalSaved: (n) => say("{n} logs saved", { n }), show: say("Show the log"),
  showAll: (n) => say("Show the {n} logs", { n }),
};

export class PhotoUploadElement extends HTMLElement {
  #stop = null;
  #form = null;
  #button = null;
  #list = null;
  #said = null;
  #waiting = [];
  #isSending = false;
  #saved = 0;
  #failed = 0;
  #complaint = "";

  static define(tag = "photo-upload") {
    customElements.define(tag, this);
  }

  connectedCallback() {
    this.#stop = new AbortController();
    const options = { signal: this.#stop.signal };
    this.#form = this.querySelector("form");
    this.#button = this.#form.querySelector("button:not([type=button])");
    this.#button.hidden = true;
    this.#make();
    this.#form.addEventListener("change", (event) => this.#chosen(event.target), options);
    this.#form.addEventListener("submit", (event) => event.preventDefault(), options);
    for (const type of ["dragenter", "dragover", "dragleave", "drop"]) {
      this.addEventListener(type, (event) => this.#dragged(event), options);
    }
    window.addEventListener("beforeunload", (event) => this.#leaving(event), options);
    // Chosen before the script came.
    for (const input of this.#form.querySelectorAll("input[type=file]")) this.#chosen(input);
  }

  disconnectedCallback() {
    this.#stop?.abort();
    this.#waiting = [];
    this.#button.hidden = false;
    for (const part of [this.#said, this.#list]) part.remove();
  }

  #make() {
    this.#list = element("ul", { className: "photo-queue" });
    this.#said = element("p", { className: "photo-said" });
    this.#said.setAttribute("role", "status");
    this.#said.textContent = this.#words.drop;
    this.append(this.#said, this.#list);
  }

  #chosen(input) {
    if (input.type !== "file") return;
    this.#take(input.files);
    input.value = "";         // the same file may be chosen again
  }

  #dragged(event) {
    if (!event.dataTransfer?.types.includes("Files")) return;
    event.preventDefault();
    const leaves = event.type === "dragleave" && !this.contains(event.relatedTarget);
    this.toggleAttribute("data-over", event.type !== "drop" && !leaves);
    if (event.type === "drop") this.#take(event.dataTransfer.files);
  }

  #leaving(event) {
    if (this.#isSending) event.preventDefault();
  }

  #take(files) {
    const about = this.#about;
    for (const file of files) this.#waiting.push({ file, about, row: this.#madeRow(file), state: freshState() });
    this.#sendAll();
  }

  /** What the form says besides the files, such as the stage, at the time of the choice. */
  get #about() {
    const entries = [...new FormData(this.#form)];
    return Object.fromEntries(entries.filter(([name, value]) => typeof value === "string" && !NOT_SAID.has(name)));
  }

  // One after the other: a phone's line is not faster with two.
  async #sendAll() {
    if (this.#isSending) return;
    this.#isSending = true;
    const { signal } = this.#stop;
    while (this.#waiting.length && !signal.aborted) {
      await this.#send(this.#waiting.shift(), signal);
      this.#tell();
    }
    this.#isSending = false;
  }

  async #send(job, signal) {
    const { file, row } = job;
    try {
      row.say(say("Being read"));
      const about = { ...job.about, name: file.name, size: file.size, ...(await digested(file)) };
      row.say(say("Sending"));
      const { kept } = await sendInBlocks(file, this.#how(about, row, signal), job.state);
      this.#succeed(row, kept);
    } catch (error) {
      if (!signal.aborted) this.#fail(job, error);
    }
  }

  #how(about, row, signal) {
    const token = this.#form.elements.csrfmiddlewaretoken?.value ?? "";
    return {
      start: this.dataset.start, about, token,
      fetch: (url, options = {}) =>
        fetch(url, { ...options, signal: AbortSignal.any([signal, AbortSignal.timeout(PATIENCE)]) }),
      wait: (ms) => {
        row.say(say("The connection broke. Trying again"));
        return waited(ms);
      },
      progress: (bytes) => row.advance(bytes),
    };
  }

  #succeed(row, address) {
    this.#saved += 1;
    row.finish(say("Saved"), address);
    const nothing = document.querySelector("[aria-labelledby=kept-h] .empty");
    if (nothing) nothing.hidden = true;         // “nothing was sent yet” is no longer so
    this.dispatchEvent(new CustomEvent("file-kept", { bubbles: true, detail: { address } }));
  }

  #fail(job, error) {
    this.#failed += 1;
    if (error instanceof Refusal) return job.row.refuse(this.#complain(job.file, error.message));
    // A file that was changed or taken away since it was chosen cannot be read.
    const why = error instanceof Interrupted
      ? say("The connection broke off. What has arrived is kept.")
      : say("This device could not read the file. If it was moved or changed, choose it again.");
    job.row.refuse(this.#complain(job.file, why), () => this.#again(job));
  }

  #complain({ name }, message) {
    this.#complaint = `${name}: ${message}`;
    return message;
  }

  #again(job) {
    this.#failed -= 1;
    this.#waiting.push(job);
    this.#sendAll();
  }

  #tell() {
    const parts = [this.#saved === 1 ? this.#words.saved : this.#words.severalSaved(this.#saved)];
    if (this.#failed) parts.push(say("{n} not", { n: this.#failed }));
    if (this.#waiting.length) parts.push(say("{n} to go", { n: this.#waiting.length }));
    // Why a file was not saved stands beside it; here it is for those who only hear.
    const heard = element("span", { className: "off", textContent: ` ${this.#complaint} ` });
    this.#said.replaceChildren(`${parts.join(", ")}.`, heard, " ");
    this.#complaint = "";
    if (!this.#waiting.length && this.#saved) this.#said.append(this.#link());
  }

  #link() {
    const label = this.#saved === 1 ? this.#words.show : this.#words.showAll(this.#saved);
    return element("a", { href: this.dataset.next ?? location.pathname, textContent: label });
  }

  get #words() {
    return "logs" in this.dataset ? LOGS : PICTURES;
  }

  #madeRow(file) {
    const row = new Row(file);
    this.#list.append(row.element);
    return row;
  }
}

/** One file in the list. */
class Row {
  #bar;
  #words = element("p");

  constructor({ name, size }) {
    this.#bar = element("progress", { max: size || 1, value: 0, ariaLabel: name });
    this.#words.textContent = say("Waiting");
    this.element = element("li");
    const title = element("p", { className: "name", textContent: name });
    title.append(element("span", { className: "quiet", textContent: ` ${sized(size)}` }));
    this.element.append(title, this.#bar, this.#words);
  }

  say(words) {
    this.#bar.hidden = false;
    this.#words.className = "";
    this.#words.textContent = words;
  }

  advance(bytes) {
    this.#bar.value = bytes;
    const all = bytes >= this.#bar.max;
    this.#words.textContent = all ? say("Being checked") : say("Sending, {percent} %", { percent: Math.floor((100 * bytes) / this.#bar.max) });
  }

  finish(words, address) {
    this.#bar.hidden = true;
    this.#words.textContent = `${words}. `;
    const textContent = say("Open {name}", { name: this.#bar.ariaLabel });
    this.#words.append(element("a", { href: address, textContent }));
  }

  refuse(message, again) {
    this.#bar.hidden = true;
    this.#words.className = "err";
    const sign = svg("svg", { class: "sign", viewBox: "0 0 18 18", "aria-hidden": "true" }, svg("use", { href: "#bang" }));
    this.#words.replaceChildren(sign, element("span", { textContent: say("Not saved. {words}", { words: capitalised(message) }) }));
    if (again) this.#offer(again);
  }

  #offer(again) {
    const button = element("button", { type: "button", className: "second", textContent: say("Try again") });
    button.addEventListener("click", () => {
      button.remove();
      this.say(say("Waiting"));
      again();
    });
    this.element.append(button);
  }
}

/** The digest by which the server knows a file again; only secure pages can work it out. */
async function digested(file) {
  if (!globalThis.crypto?.subtle || file.size > MOST_READ) return {};
  const bytes = new Uint8Array(await crypto.subtle.digest("SHA-256", await file.arrayBuffer()));
  return { sha256: [...bytes].map((byte) => byte.toString(16).padStart(2, "0")).join("") };
}

/** Waits, but no longer than until the network is back. */
function waited(ms) {
  return new Promise((resolve) => {
    const timer = setTimeout(done, ms);
    window.addEventListener("online", done, { once: true });
    function done() {
      clearTimeout(timer);
      window.removeEventListener("online", done);
      resolve();
    }
  });
}

const sized = (bytes) =>
  (bytes < 1e5 ? `${Math.ceil(bytes / 1000)}\u202FkB` : `${sayNumber((bytes / 1e6).toFixed(1))}\u202FMB`);
const capitalised = (text) => text.charAt(0).toUpperCase() + text.slice(1);
const element = (name, properties = {}) => Object.assign(document.createElement(name), properties);
