// A ring in pencil around the notes that are meant.

import { h } from "./dom.js";

export function unpoint() {
  for (const ring of document.querySelectorAll(".ring")) ring.remove();
  for (const note of document.querySelectorAll(".pointed")) note.classList.remove("pointed");
}

/** Ring the notes and bring the first into sight. Nothing happens where there are none. */
export function point(notes, severity) {
  unpoint();
  const few = notes.length <= 12 ? notes : notes.slice(0, 2); // a whole line is meant: its beginning will do
  for (const note of few) {
    const staves = note.closest(".staves");
    const frame = staves.getBoundingClientRect();
    const box = note.getBoundingClientRect();
    const ring = h("div", { className: `ring ${severity}` });
    Object.assign(ring.style, { left: `${box.left - frame.left - 7}px`, top: `${box.top - frame.top - 7}px`, width: `${box.width + 14}px`, height: `${box.height + 14}px` });
    staves.append(ring);
    note.classList.add("pointed");
  }
  const motion = matchMedia("(prefers-reduced-motion: reduce)").matches ? "auto" : "smooth";
  few[0]?.closest(".system").scrollIntoView({ block: "center", behavior: motion });
}
