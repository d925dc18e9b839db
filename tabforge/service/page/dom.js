// Small helpers. Whatever comes from a study goes into the page as text, never as markup; pictures are parsed as SVG and cleaned.

export const $ = (id) => document.getElementById(id);

/** An element with properties and children; strings become text. */
export function h(name, properties = {}, ...children) {
  const element = document.createElement(name);
  for (const [key, value] of Object.entries(properties)) {
    if (value === undefined || value === null || value === false) continue;
    if (key in element && key !== "list") element[key] = value;
    else element.setAttribute(key, value === true ? "" : value);
  }
  element.append(...children.filter((child) => child !== null && child !== undefined));
  return element;
}

/** A picture from its text, without anything that could act. */
export function picture(svg) {
  const parsed = new DOMParser().parseFromString(svg, "image/svg+xml");
  const root = parsed.documentElement;
  if (root.nodeName !== "svg") return h("span");
  for (const each of root.querySelectorAll("script, foreignObject, a, iframe, image")) each.remove();
  return document.adoptNode(root);
}

/** Places in a text: the service counts characters, the browser counts UTF-16 units. */
export class Places {
  constructor(text) {
    this.text = text;
    this.wide = /[\ud800-\udbff]/.test(text);
    this.starts = [0];
    for (let at = text.indexOf("\n"); at >= 0; at = text.indexOf("\n", at + 1)) this.starts.push(at + 1);
  }

  /** The browser's index of a character. */
  unit(offset) {
    if (!this.wide) return offset;
    let at = 0;
    for (let n = 0; n < offset && at < this.text.length; n++) at += this.text.codePointAt(at) > 0xffff ? 2 : 1;
    return at;
  }

  /** The line, from 1, of a browser's index. */
  line(unit) {
    let low = 0;
    let high = this.starts.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (this.starts[middle] <= unit) low = middle;
      else high = middle - 1;
    }
    return low + 1;
  }

  words(line) {
    return this.text.slice(this.starts[line - 1], this.starts[line] ?? undefined).trimEnd();
  }
}

/** Tell a screen reader something that is not urgent. */
export function say(words) {
  const status = $("status");
  status.textContent = status.textContent === words ? `${words} ` : words;
}

/** Tell it at once. */
export function warn(words) {
  const alert = $("alert");
  alert.textContent = alert.textContent === words ? `${words} ` : words;
}

/** A list of buttons of which one is reached with Tab, the others with arrow keys. */
export function roving(list) {
  const buttons = () => [...list.querySelectorAll("button")];
  const choose = (button, focus) => {
    for (const each of buttons()) each.tabIndex = each === button ? 0 : -1;
    if (focus) button.focus();
  };
  list.addEventListener("keydown", (event) => {
    const all = buttons();
    const at = all.indexOf(document.activeElement);
    if (at < 0 || event.altKey || event.ctrlKey || event.metaKey) return;
    const to = { ArrowDown: at + 1, ArrowUp: at - 1, Home: 0, End: all.length - 1 }[event.key];
    if (to === undefined) return;
    event.preventDefault();
    choose(all[Math.max(0, Math.min(all.length - 1, to))], true);
  });
  list.addEventListener("focusin", (event) => event.target.matches("button") && choose(event.target, false));
  return () => {
    const all = buttons();
    if (!all.length) return;
    const kept = all.find((each) => each.tabIndex === 0 && each.dataset.roved) || all.find((each) => each.getAttribute("aria-current") === "true") || all[0];
    for (const each of all) each.dataset.roved = "1";
    choose(kept, false);
  };
}
