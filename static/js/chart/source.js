import { say } from "../lib/say.js";

/**
 * Where the numbers come from: the server, a window at a time, or a template on the page.
 *
 * @typedef {{span: [number, number], whole: [number, number], all: boolean, time: number[],
 *   samples: number[],     the times without those that only stand for a pause of the log
 *   channels: {label: string, panel: string, unit: string, step: number,
 *              values: (number|null)[]}[]}} Rows
 */

export class WindowSource {
  #url;
  #asking = null;

  /** @param {string} url that answers to ?from=&to=&points= ; without from and to: the whole log */
  constructor(url) {
    this.#url = url;
  }

  /**
   * What was asked before and has not come is no longer waited for.
   *
   * @returns {Promise<Rows | null>} null when a later question made this one stale
   */
  async rows(span, points) {
    this.stop();
    const asking = this.#asking = new AbortController();
    try {
      const answer = await fetch(this.#address(span, points), {
        signal: asking.signal, headers: { Accept: "application/json" },
      });
      if (!answer.ok) throw new Error(say("The site answered with status {status}.", { status: answer.status }));
      return asRows(await answer.json());
    } catch (error) {
      if (asking.signal.aborted) return null;
      throw error;
    }
  }

  stop() {
    this.#asking?.abort();
  }

  #address(span, points) {
    const url = new URL(this.#url, location.href);
    if (span) {
      url.searchParams.set("from", span[0]);
      url.searchParams.set("to", span[1]);
    }
    url.searchParams.set("points", points);
    return url;
  }
}

/** Everything at once, from JSON that stands in a `<template>`. */
export class TemplateSource {
  #rows;

  constructor(template) {
    this.#rows = asRows(JSON.parse(template.content.textContent));
  }

  async rows() {
    return this.#rows;
  }

  stop() {}
}

function asRows({ from, to, first, last, all, time, pauses, channels }) {
  const between = new Set(pauses);
  const samples = time.filter((_, index) => !between.has(index));
  return { span: [from ?? first, to ?? last], whole: [first, last], all, time, samples, channels };
}
