// What lies under the music: theory notes, shapes, ASCII tab, and files to take along.

import { $, h, picture, say, warn } from "./dom.js";
import * as api from "./api.js";

/** Fill the leaves from a view; those that look as before are left alone. */
export function showLeaves(view) {
  $("leaves").hidden = false;
  once($("theory"), view.theory.text, (text) => theory(text));
  const drawn = view.sections.flatMap((section) => section.diagrams.map((each) => ({ ...each, title: section.title })));
  $("shapes-leaf").hidden = !drawn.length;
  once($("shapes"), JSON.stringify(drawn), () => drawn.map(shape));
  if ($("tab").textContent !== view.tab) $("tab").textContent = view.tab;
}

const shown = new WeakMap();

function once(element, key, make) {
  if (shown.get(element) === key) return;
  shown.set(element, key);
  element.replaceChildren(...make(key));
}

function shape(drawn) {
  const drawing = picture(drawn.svg);
  drawing.setAttribute("role", "img");
  drawing.setAttribute("aria-label", drawn.label);
  return h("figure", {}, drawing, h("figcaption", {}, drawn.title));
}

/** The service's own words, "    Term   words" under "  Block": a list of terms for each block. */
function theory(text) {
  const blocks = [];
  let list = null;
  for (const line of text.split("\n").slice(1)) {
    const term = /^ {4}(\S.*?) {2,}(\S.*)$/.exec(line);
    const block = /^ {2}(\S.*)$/.exec(line);
    if (block) {
      list = h("dl");
      blocks.push(h("div", { className: "theory-block" }, h("h3", {}, block[1]), list));
    } else if (term && list) list.append(h("dt", {}, term[1]), h("dd", {}, term[2]));
    else if (line.trim() && list?.lastElementChild) list.lastElementChild.append(` ${line.trim()}`);
    else if (line.trim()) blocks.push(h("p", {}, line.trim()));
  }
  return blocks;
}

/** Buttons for every format the service can make. */
export async function showTakes(input, name) {
  let told = [];
  try {
    told = (await api.formats()).filter((each) => each.installed);
  } catch {
    $("take-leaf").hidden = true;
    return;
  }
  $("takes").replaceChildren(
    ...told.map((each) => {
      const button = h("button", { type: "button", className: "peg", "data-format": each.name, title: each.summary }, `${each.summary || each.name} (${each.suffix})`);
      button.addEventListener("click", () => take(each, button, input, name));
      return h("li", {}, button);
    }),
  );
}

async function take(format, button, input, name) {
  button.setAttribute("aria-busy", "true");
  try {
    const response = await api.exported(format.name, input());
    const link = h("a", { href: URL.createObjectURL(await response.blob()), download: `${stem(name())}${format.suffix}` });
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 60000);
    say(`${format.name} is made.`);
  } catch (error) {
    warn(error.message);
  } finally {
    button.removeAttribute("aria-busy");
  }
}

const stem = (name) => (name || "study").split("/").pop().replace(/\.[^.]*$/, "").replace(/[^\p{L}\p{N} _-]+/gu, "-") || "study";
