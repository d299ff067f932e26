// The one way to the server: JSON calls, one at a time, the newest of its kind before older ones.

const TOKEN = document.querySelector("meta[name=bench-token]").content;
export const RUN = document.querySelector("meta[name=bench-run]").content;

/** What the server says when it will not do something. */
export class Refused extends Error {
  constructor(said, status, told) {
    super(said);
    this.status = status;
    this.told = told;
  }
}

/** The server cannot be reached. */
export class Gone extends Error {}

export async function call(name, asked = {}) {
  let answer;
  try {
    answer = await fetch(`/api/${name}`, {
      method: "POST",
      headers: { "content-type": "application/json", "x-bench-token": TOKEN },
      body: JSON.stringify(asked),
    });
  } catch {
    throw new Gone("the bench does not answer");
  }
  if (answer.ok) return answer.json();
  const kind = answer.headers.get("content-type") || "";
  const told = kind.startsWith("application/json") ? await answer.json() : { said: await answer.text() };
  throw new Refused(told.said, answer.status, told);
}

/** Calls in their order; one that waits is replaced by a newer one of the same `key`. */
export class Line {
  constructor(handle) {
    this.handle = handle;
    this.waiting = [];
    this.busy = false;
  }

  put(name, asked, key = "") {
    const at = performance.now();
    const last = this.waiting.at(-1);
    if (key && last && last.key === key) this.waiting.pop();
    return new Promise((done) => {
      this.waiting.push({ name, asked, key, at, done });
      this.run();
    });
  }

  async run() {
    if (this.busy) return;
    this.busy = true;
    document.body.dataset.busy = "yes";
    while (this.waiting.length) {
      const next = this.waiting.shift();
      next.done(await this.handle(next));
    }
    this.busy = false;
    delete document.body.dataset.busy;
  }
}
