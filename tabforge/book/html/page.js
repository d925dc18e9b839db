
"use strict";
(() => {
  const root = document.documentElement;

  // The page's own choice of light or dark stands above the device's, and is remembered where the browser lets it.
  const KEY = "page";
  const device = matchMedia("(prefers-color-scheme: dark)");
  const dark = document.getElementById("page_dark");
  const stored = () => { try { return localStorage.getItem(KEY); } catch { return null; } };
  const show = (choice) => {
    if (choice === "dark" || choice === "light") root.dataset.page = choice;
    dark.setAttribute("aria-pressed", String((root.dataset.page ?? (device.matches ? "dark" : "light")) === "dark"));
  };
  dark.addEventListener("click", () => {
    const choice = dark.getAttribute("aria-pressed") === "true" ? "light" : "dark";
    show(choice);
    try { localStorage.setItem(KEY, choice); } catch { /* not remembered, then */ }
  });
  device.addEventListener("change", () => show(null));
  dark.hidden = false;
  show(stored());

  // What can be scrolled sideways can be scrolled by keys.
  const sized = new ResizeObserver((entries) => {
    for (const { target } of entries) {
      if (target.scrollWidth > target.clientWidth + 1) target.tabIndex = 0;
      else target.removeAttribute("tabindex");
    }
  });
  for (const each of document.querySelectorAll(".scroll")) sized.observe(each);

  // One track at a time, and never loud at first.
  const tracks = [...document.querySelectorAll("audio")];
  for (const track of tracks) {
    track.volume = 0.3;
    track.addEventListener("play", () => { for (const other of tracks) if (other !== track) other.pause(); });
  }

  // What is hidden on screen is printed if it was opened; the contents are printed whole.
  const folded = document.querySelectorAll(".contents details, .plan");
  let opened = [];
  addEventListener("beforeprint", () => { opened = [...folded].filter((each) => !each.open); for (const each of opened) each.open = true; });
  addEventListener("afterprint", () => { for (const each of opened) each.open = false; });

  // Search.
  const form = document.querySelector(".search");
  const exercises = [...document.querySelectorAll(".exercise")].map((article) => ({
    article,
    entry: document.querySelector(`.contents a[href="#${article.id}"]`).parentElement,
    level: article.dataset.level ?? "",
    techniques: JSON.parse(article.dataset.techniques ?? "[]"),
    words: article.dataset.words,
  }));
  const closed = new Set([...document.querySelectorAll(".contents details:not([open])")]);
  const search = () => {
    const { words, level, technique, told } = form.elements;
    const wanted = words.value.toLowerCase().split(/\s+/).filter(Boolean);
    const asked = Boolean(wanted.length || level?.value || technique?.value);
    let found = 0;
    for (const each of exercises) {
      const fits = wanted.every((word) => each.words.includes(word))
        && (!level?.value || each.level === level.value)
        && (!technique?.value || each.techniques.includes(technique.value));
      each.article.hidden = each.entry.hidden = !fits;
      found += fits;
    }
    for (const chapter of document.querySelectorAll(".contents details")) {
      const left = chapter.querySelectorAll("li:not([hidden])").length;
      chapter.hidden = asked && !left;
      if (asked) chapter.open = true;
      else if (closed.has(chapter)) chapter.open = false;
    }
    for (const chapter of document.querySelectorAll(".chapter")) {
      chapter.hidden = asked && !chapter.querySelector(".exercise:not([hidden])");
    }
    told.value = !asked ? "" : found === 0 ? "No exercise fits." : found === 1 ? "1 exercise fits." : `${found} exercises fit.`;
  };
  form.addEventListener("input", search);
  form.addEventListener("reset", () => setTimeout(search));
  form.addEventListener("submit", (event) => event.preventDefault());
  form.hidden = false;

  // A link to what the search has hidden shows everything again.
  const reveal = () => {
    const target = document.getElementById(decodeURIComponent(location.hash.slice(1)));
    if (target?.closest("[hidden]")) { form.reset(); setTimeout(() => target.scrollIntoView()); }
  };
  addEventListener("hashchange", reveal);
  document.addEventListener("click", (event) => {
    if (event.target.closest?.('a[href^="#"]')) setTimeout(reveal);
  });
})();
