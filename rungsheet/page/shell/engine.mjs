// The engine as the page sees it: jobs asked of a worker in which the Python runs.
//
// To the worker   {parts}                      once, first: what the page carries, packed
//                 {id, job, args, bytes?}      a job of bridge.py, its plain data, a file's bytes
// and from it     {ready: true}                it can be asked
//                 {id, progress: {done, of}}   so many pages are drawn
//                 {id, result, files}          the job's plain data, and bytes that it names by
//                                              their place: {name, role, pages, file}
//                 {id, problems, files: []}    [{line, what, instead}]: what to put right
//                                              texts in several languages in either are
//                                              {in_languages: {code: text}}, sayings in the page
//                 {id, fault}                  the job failed, by a fault of the program
//                 {id?, broken}                so did the engine, which is of no more use
//
// One job is sent at a time; the others wait here, where they can be withdrawn. A worker that
// takes too long is ended and another started: the page, and what is typed in it, stays.

import { heard } from "./speaking.mjs";
import { unpacked } from "./unpacking.mjs";

const PARTS = ["pyodide.asm.wasm", "python_stdlib.zip", "site"];

/** A job that the engine answered with problems: [{line, what, instead}]. */
export class Problems extends Error {
  constructor(problems) {
    super(problems.map(({ what }) => what).join("\n"));
    this.problems = problems;
  }
}

/**
 * A job that was not done. `why` says: "stopped" by someone, "out of time", "withdrawn" because
 * a later one took its place, a "fault" of the program, or an engine that is "broken".
 */
export class NotDone extends Error {
  constructor(why, detail = why) {
    super(detail);
    this.why = why;
  }
}

export class Engine extends EventTarget {
  #worker = null;
  #waiting = [];
  #current = null;
  #timer = 0;
  #number = 0;
  #carried = {};
  #program = null;

  /** `carried` gives the text of a part of the page by its name. */
  constructor(carried) {
    super();
    for (const name of PARTS) this.#carried[name] = carried(name);
    this.#program = unpacked(carried("worker.js"), "text/javascript")
      .blob()
      .then((blob) => URL.createObjectURL(blob));
    /** "starting", "ready", "working" or "broken"; each change is told by an event "state". */
    this.state = "starting";
    this.#start();
  }

  /**
   * The answer of a job: {result, files}. Rejects with Problems or NotDone, at once where the
   * engine is of no more use.
   * `seconds` bounds it; of waiting jobs with the same `instead` only the last is done. Once its
   * `signal` is aborted it is stopped, and no other is.
   */
  ask(job, args = {}, { bytes, progress, seconds = 60, instead, signal } = {}) {
    return new Promise((resolve, reject) => {
      if (this.state === "broken") throw new NotDone("broken");
      this.#number += 1;
      const given = { id: this.#number, job, args, bytes, progress, seconds, instead };
      const asked = { ...given, resolve, reject };
      signal?.addEventListener("abort", () => this.#stop(asked), { once: true });
      if (signal?.aborted) {
        reject(new NotDone("stopped"));
        return;
      }
      if (instead !== undefined) {
        const older = this.#waiting.filter((other) => other.instead === instead);
        this.#waiting = this.#waiting.filter((other) => other.instead !== instead);
        for (const other of older) other.reject(new NotDone("withdrawn"));
      }
      this.#waiting.push(asked);
      this.#next();
    });
  }

  /** End what is being done and start again; what waits is done then. */
  stop(why = "stopped") {
    const ended = this.#current;
    this.#end();
    this.#start();
    ended?.reject(new NotDone(why));
  }

  /** Stop a job: end it, or withdraw it where it waits; one that is done stays so. */
  #stop(asked) {
    if (asked === this.#current) this.stop();
    else if (this.#waiting.includes(asked)) {
      this.#waiting = this.#waiting.filter((other) => other !== asked);
      asked.reject(new NotDone("stopped"));
    }
  }

  #become(state) {
    this.state = state;
    this.dispatchEvent(new Event("state"));
  }

  #end() {
    clearTimeout(this.#timer);
    if (this.#worker) this.#worker.onmessage = this.#worker.onerror = null;
    this.#worker?.terminate();
    this.#worker = null;
    this.#current = null;
  }

  async #start() {
    this.#become("starting");
    let worker = null;
    try {
      worker = new Worker(await this.#program);
    } catch (error) {
      this.#broke(null, String(error)); // no program, or a browser that lets none run
      return;
    }
    this.#worker = worker;
    worker.onmessage = ({ data }) => this.#heard(data);
    worker.onerror = (event) => {
      event.preventDefault?.();
      this.#heard({ broken: event.message ?? "the worker ended" });
    };
    worker.postMessage({ parts: this.#carried });
  }

  #next() {
    if (this.state !== "ready" || this.#waiting.length === 0) return;
    this.#current = this.#waiting.shift();
    const { id, job, args, bytes, seconds } = this.#current;
    this.#become("working");
    this.#timer = setTimeout(() => this.stop("out of time"), seconds * 1000);
    this.#worker.postMessage({ id, job, args, bytes });
  }

  #heard({ id, ready, progress, result, problems, files, fault, broken }) {
    if (ready) this.#become("ready");
    else if (progress) {
      if (this.#current?.id === id) this.#current.progress?.(progress);
      return;
    } else {
      const asked = this.#current;
      clearTimeout(this.#timer);
      this.#current = null;
      if (broken !== undefined) {
        this.#broke(asked, broken);
        return;
      }
      if (fault !== undefined) {
        console.error(fault);
        asked.reject(new NotDone("fault", fault));
      } else if (problems) asked.reject(new Problems(heard(problems)));
      else asked.resolve({ result: heard(result), files });
      this.#become("ready");
    }
    this.#next();
  }

  /** The engine failed: a job is refused and another worker takes over. */
  #broke(asked, why) {
    console.error(why);
    const begun = this.state !== "starting";
    this.#end();
    if (!begun) {
      this.#become("broken");
      for (const other of this.#waiting.splice(0)) other.reject(new NotDone("broken", why));
      return;
    }
    this.#start();
    asked?.reject(new NotDone("fault", why));
  }
}
