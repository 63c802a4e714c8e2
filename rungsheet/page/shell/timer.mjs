// A quiet timer: it counts down where it can be seen, and makes no sound.

export class Timer {
  #told = null;
  #section = null;
  #seconds = 0; // in all
  #before = 0; // seconds that ran before it was last stopped
  #since = null; // when it was last started
  #every = 0;

  /** `told` is called each second while it runs, and when it starts and stops. */
  constructor(told) {
    this.#told = told;
  }

  /** The section that is shown, {minutes}, or null. One that runs goes on until it is stopped. */
  of(section) {
    if (this.running || (section ?? null) === this.#section) return;
    this.#section = section ?? null;
    this.#seconds = 60 * (section?.minutes ?? 0);
    this.#before = 0;
  }

  get running() {
    return this.#since !== null;
  }

  get shown() {
    return this.#section !== null;
  }

  get #left() {
    const since = this.running ? (performance.now() - this.#since) / 1000 : 0;
    return Math.max(0, Math.ceil(this.#seconds - this.#before - since));
  }

  get over() {
    return this.shown && this.#left === 0;
  }

  get text() {
    const left = this.#left;
    return `${Math.floor(left / 60)}:${String(left % 60).padStart(2, "0")}`;
  }

  /** Start it, or stop it; once it is over, from the beginning. */
  turn() {
    if (!this.shown) return;
    if (this.over) {
      this.#before = 0;
      this.#stopped();
    } else if (this.running) {
      this.#before += (performance.now() - this.#since) / 1000;
      this.#stopped();
    } else {
      this.#since = performance.now();
      this.#every = setInterval(() => this.#told(), 250);
    }
    this.#told();
  }

  stop() {
    if (this.running) this.turn();
  }

  reset() {
    this.#stopped();
    this.#section = null;
    this.#before = 0;
  }

  #stopped() {
    this.#since = null;
    clearInterval(this.#every);
  }
}
