// Index cards: the studies of the folder.

import { $, h, roving } from "./dom.js";

export class Cards {
  constructor(onOpen) {
    this.list = $("cards");
    this.settle = roving(this.list);
    this.onOpen = onOpen;
    const drawer = $("drawer");
    const opener = $("drawer-open");
    this.close = () => {
      drawer.classList.remove("open");
      opener.setAttribute("aria-expanded", "false");
    };
    opener.addEventListener("click", () => {
      const open = drawer.classList.toggle("open");
      opener.setAttribute("aria-expanded", String(open));
      if (open) drawer.querySelector("button[tabindex='0'], button")?.focus();
    });
    addEventListener("keydown", (event) => {
      if (event.key !== "Escape" || !drawer.classList.contains("open")) return;
      this.close();
      opener.focus();
    });
  }

  /** The card of the study on the stand is in sight. */
  reveal() {
    this.list.querySelector("[aria-current]")?.scrollIntoView({ block: "nearest" });
  }

  show(studies, current, fresh) {
    const held = document.activeElement?.dataset?.study;
    $("no-cards").hidden = studies.length > 0;
    this.list.replaceChildren(
      ...studies.map((each) => {
        const card = h("button", { type: "button", className: each.id === fresh ? "card fresh" : "card", "data-study": each.id },
          each.title || plain(each.name), h("small", {}, each.name));
        if (each.id === current) card.setAttribute("aria-current", "true");
        card.addEventListener("click", () => {
          this.close();
          this.onOpen(each.id);
        });
        return h("li", {}, card);
      }),
    );
    if (current === "scratch") $("scratch-open").setAttribute("aria-current", "true");
    else $("scratch-open").removeAttribute("aria-current");
    this.settle();
    if (held) this.list.querySelector(`[data-study="${CSS.escape(held)}"]`)?.focus();
  }
}

/** A file's name as a title: 01-lantern-climb.riff is Lantern climb. */
function plain(name) {
  const words = name.split("/").pop().replace(/\.[^.]*$/, "").replace(/^\d+[-_ ]*/, "").replace(/[-_]+/g, " ").trim();
  return words ? words[0].toUpperCase() + words.slice(1) : name;
}
