// Passing a lesson on: as a link where the page is on a web server, as its spec file otherwise.

import { button, make } from "./elements.mjs";
import { linked } from "./links.mjs";
import { saveLesson } from "./saving.mjs";
import { WORDS } from "./speaking.mjs";

const SAID = WORDS.passing_on;

/** The section of the page in which a lesson is passed on. */
export function passingOn(lesson) {
  const onServer = /^https?:$/.test(location.protocol);
  const link = make("input", { type: "text", readonly: true, hidden: true, "aria-label": SAID.link });
  const copy = async () => {
    link.value = new URL(await linked(lesson), location.href).href;
    link.hidden = false;
    link.select();
    try {
      await navigator.clipboard.writeText(link.value);
      lesson.say(SAID.copied);
    } catch {
      link.focus();
      lesson.say(SAID.copy_yourself);
    }
  };
  return make(
    "section",
    { class: "passing-on", "aria-label": SAID.heading },
    make("h2", {}, SAID.heading),
    make("p", {}, onServer ? SAID.says_link : SAID.says_file),
    make(
      "div",
      { class: "tools" },
      onServer ? button(SAID.copy, copy, { id: "copy-link" }) : null,
      button(SAID.save_spec, () => saveLesson(lesson), { id: "save-for-others" }),
      link,
    ),
  );
}
