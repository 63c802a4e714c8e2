// The five places of the page. A place is a module that exports
//
//   open(host, lesson)   called each time the place is gone to: shows it in `host`, a section of
//                        the page that stays its own; what was built there before is still there
//   close()              called when it is left: stops whatever runs, listens no more

import * as inClass from "./in_class.mjs";
import * as lesson from "./lesson.mjs";
import * as marks from "./after.mjs";
import * as find from "./find.mjs";
import * as sheets from "./sheets.mjs";
import { make } from "./elements.mjs";
import { WORDS } from "./speaking.mjs";

/** The places by name, in the order of their keys, Alt+1 and on. */
export const PLACES = { lesson, sheets, "in-class": inClass, marks, find };

export class Places extends EventTarget {
  #lesson = null;
  #hosts = {};
  here = null;

  constructor(lesson, main) {
    super();
    this.#lesson = lesson;
    for (const name of Object.keys(PLACES)) {
      const label = WORDS.places[name];
      const host = make("section", {
        id: `place-${name}`,
        "aria-label": label,
        tabindex: -1,
        hidden: true,
      });
      this.#hosts[name] = host;
      main.append(host);
    }
  }

  /** The section of the page that is shown. */
  get host() {
    return this.#hosts[this.here];
  }

  /** Leave the place that is shown and go to another. */
  go(name) {
    if (name === this.here) return;
    if (this.here) {
      PLACES[this.here].close();
      this.#hosts[this.here].hidden = true;
    }
    this.here = name;
    this.#hosts[name].hidden = false;
    document.body.dataset.place = name;
    globalThis.scrollTo(0, 0);
    PLACES[name].open(this.#hosts[name], this.#lesson);
    this.dispatchEvent(new Event("gone"));
  }
}
