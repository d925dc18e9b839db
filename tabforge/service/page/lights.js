// Daylight or lamp: as the device has it, or as the reader wants it.

import { $ } from "./dom.js";

export function lights() {
  const device = matchMedia("(prefers-color-scheme: dark)");
  const lamp = $("lamp");
  try {
    lamp.value = localStorage.getItem("tabforge-light") || "auto";
  } catch {
    lamp.value = "auto";
  }
  const shine = () => {
    document.documentElement.dataset.lamp = lamp.value === "auto" ? (device.matches ? "evening" : "day") : lamp.value;
  };
  device.addEventListener("change", shine);
  lamp.addEventListener("change", () => {
    try {
      localStorage.setItem("tabforge-light", lamp.value);
    } catch {
      // then it is asked again
    }
    shine();
  });
  shine();
}
