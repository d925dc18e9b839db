// Before the first sound a caution is read; then no more.

import { $ } from "./dom.js";

const READ = "tabforge-cared";
let read = false;
let then = () => {};

try {
  read = localStorage.getItem(READ) === "yes";
} catch {
  // it is said again each time the page is opened
}

$("care-not").addEventListener("click", () => $("care").close());
$("care-play").addEventListener("click", () => {
  $("care").close();
  read = true;
  try {
    localStorage.setItem(READ, "yes");
  } catch {
    // see above
  }
  then();
});

/** Do something that sounds, at once or when the caution has been read. */
export function careful(sound) {
  if (read) return sound();
  then = sound;
  $("care").showModal();
  return $("care-play").focus();
}
