import assert from "node:assert/strict";
import { test } from "node:test";

import {
  BLOCK, Interrupted, Refusal, TRIES, blockAt, freshState, pauseBefore, sendInBlocks,
} from "../../static/js/lib/upload-blocks.js";

const SIZE = 2 * BLOCK + 500;         // three blocks

/** A server that keeps what it gets; `faults` are answers or errors that come instead, by request. */
class Server {
  received = new Uint8Array(0);
  requests = [];
  finished = false;
  known = false;

  constructor(faults = {}) {
    this.faults = faults;
  }

  fetch = async (url, { method = "GET", body, headers = {} } = {}) => {
    assert.equal(headers.Prefer, "refusal-status=200");
    this.requests.push(method);
    const fault = this.faults[this.requests.length];
    if (fault?.before) return fault.before();
    const answer = await this[method.toLowerCase()](body, headers, url);
    return fault?.after ? fault.after() : answer;
  };

  post(body) {
    if (this.finished) return json({ kept: "/photos/1/" });
    this.said = JSON.parse(body);
    this.known = true;
    return json({ upload: "u1", offset: this.received.length });
  }

  get() {
    if (!this.known) return new Response(null, { status: 404 });
    return json({ offset: this.received.length });
  }

  async put(body, headers, url) {
    assert.equal(url, "/uploads/u1/");
    assert.equal(headers["X-CSRFToken"], "token");
    if (!this.known) return new Response(null, { status: 404 });
    if (Number(headers["Upload-Offset"]) !== this.received.length) return this.#stands(409);
    this.received = Buffer.concat([this.received, Buffer.from(await body.arrayBuffer())]);
    if (this.received.length < SIZE) return this.#stands(204);
    this.finished = true;
    this.known = false;
    return json({ kept: "/photos/1/" }, 201);
  }

  #stands(status) {
    return new Response(null, { status, headers: { "Upload-Offset": String(this.received.length) } });
  }
}

const json = (body, status = 200) => Response.json(body, { status });
const broken = () => { throw new TypeError("no network"); };

function numbered() {
  const bytes = new Uint8Array(SIZE);
  for (let at = 0; at < SIZE; at += 997) bytes[at] = at % 251;
  return bytes;
}

function send(server, extra = {}, state = undefined) {
  const waits = [];
  const progress = [];
  const how = {
    start: "/uploads/", about: { name: "a.jpg", size: SIZE }, token: "token", fetch: server.fetch,
    wait: async (ms) => { waits.push(ms); }, progress: (bytes) => progress.push(bytes), ...extra,
  };
  return { waits, progress, done: sendInBlocks(new Blob([numbered()]), how, state) };
}

function arrivedWhole(server) {
  assert.ok(Buffer.from(numbered()).equals(server.received));
}

test("blocks are 1 MiB, the last one is what is left", () => {
  assert.deepEqual(blockAt(0, SIZE), [0, 1048576]);
  assert.deepEqual(blockAt(2 * BLOCK, SIZE), [2097152, 2097652]);
});

test("waits double up to half a minute", () => {
  assert.deepEqual([1, 2, 3, 7, 8].map(pauseBefore), [500, 1000, 2000, 30000, 30000]);
});

test("a file goes block by block and arrives byte for byte", async () => {
  const server = new Server();
  const { done, progress } = send(server);
  assert.deepEqual(await done, { kept: "/photos/1/" });
  assert.deepEqual(server.requests, ["POST", "PUT", "PUT", "PUT"]);
  assert.deepEqual(progress, [0, BLOCK, 2 * BLOCK]);
  arrivedWhole(server);
});

test("a file that is there already is not sent", async () => {
  const server = new Server();
  server.finished = true;
  assert.deepEqual(await send(server).done, { kept: "/photos/1/" });
  assert.deepEqual(server.requests, ["POST"]);
});

test("after a broken block the server is asked how far it got", async () => {
  const server = new Server({ 3: { before: broken } });
  const { done, waits } = send(server);
  await done;
  assert.deepEqual(server.requests, ["POST", "PUT", "PUT", "GET", "PUT", "PUT"]);
  assert.deepEqual(waits, [500]);
  arrivedWhole(server);
});

test("a block whose answer was lost is not sent twice", async () => {
  const server = new Server({ 3: { after: broken } });
  await send(server).done;
  assert.deepEqual(server.requests, ["POST", "PUT", "PUT", "GET", "PUT"]);
  arrivedWhole(server);
});

test("when the last answer was lost, the server knows the file when it is begun again", async () => {
  const server = new Server({ 4: { after: broken } });
  assert.deepEqual(await send(server).done, { kept: "/photos/1/" });
  assert.deepEqual(server.requests.slice(4), ["GET", "POST"]);
});

test("an upload that the server forgot begins again", async () => {
  const server = new Server();
  const { done } = send(server, { fetch: async (...request) => {
    if (server.requests.length === 2) Object.assign(server, { known: false, received: Buffer.alloc(0) });
    return server.fetch(...request);
  } });
  await done;
  assert.deepEqual(server.requests, ["POST", "PUT", "PUT", "POST", "PUT", "PUT", "PUT"]);
  arrivedWhole(server);
});

test("409 moves to the offset that the server states", async () => {
  const server = new Server();
  server.post = () => {
    server.known = true;
    server.received = numbered().subarray(0, BLOCK);      // more than this page remembers
    return json({ upload: "u1", offset: 0 });
  };
  await send(server).done;
  assert.deepEqual(server.requests, ["POST", "PUT", "PUT", "PUT"]);
  arrivedWhole(server);
});

test("a busy server is tried again", async () => {
  const server = new Server({ 1: { before: () => new Response("", { status: 503 }) } });
  await send(server).done;
  arrivedWhole(server);
});

test("a dead line is given up after eight tries, with rising waits", async () => {
  const { done, waits } = send(new Server(), { fetch: broken });
  await assert.rejects(done, Interrupted);
  assert.equal(waits.length, TRIES - 1);
  assert.ok(waits.every((wait, i) => i === 0 || wait >= waits[i - 1]));
});

test("what was interrupted goes on where it was", async () => {
  const server = new Server();
  const state = freshState();
  const dying = async (...request) => (server.requests.length > 1 ? broken() : server.fetch(...request));
  await assert.rejects(send(server, { fetch: dying }, state).done, Interrupted);
  await send(server, {}, state).done;
  assert.deepEqual(server.requests, ["POST", "PUT", "GET", "PUT", "PUT"]);
  arrivedWhole(server);
});

test("a server that keeps throwing bytes away is given up", async () => {
  let asked = 0;
  const fetch = async (url, { method } = {}) => {
    asked += 1;
    assert.ok(asked < 100, "it goes on for ever");
    if (method === "POST") return json({ upload: "u1", offset: 0 });
    if (!method) return json({ offset: 0 });
    return new Response(null, { status: 409, headers: { "Upload-Offset": "0" } });
  };
  await assert.rejects(send(new Server(), { fetch }).done, Interrupted);
});

test("a refusal carries the server's words and is not tried again", async () => {
  const refused = () => json({ message: "It is no picture." }, 422);
  const server = new Server({ 3: { before: refused } });
  await assert.rejects(send(server).done, (error) =>
    error instanceof Refusal && error.message === "It is no picture.");
  assert.equal(server.requests.length, 3);
});

for (const request of [1, 2, 4]) {
  test(`a refusal may be answer 200, as is preferred: to request ${request}`, async () => {
    const refused = () => json({ refused: "It is no picture." });
    const server = new Server({ 3: { before: broken }, [request]: { before: refused } });
    await assert.rejects(send(server).done, (error) =>
      error instanceof Refusal && error.message === "It is no picture.");
    assert.equal(server.requests.length, request);
  });
}

for (const [status, words] of [[403, /Sign in again/], [413, /larger than the server takes/], [400, /answer 400/]]) {
  test(`an answer ${status} without words is explained`, async () => {
    const server = new Server({ 1: { before: () => new Response("", { status }) } });
    await assert.rejects(send(server).done, (error) => error instanceof Refusal && words.test(error.message));
  });
}
