"use strict";
(() => {
  const key = "pastedown " + document.body.dataset.stamp;
  const recall = () => { try { return JSON.parse(localStorage.getItem(key)) || {}; } catch { return {}; } };
  const keep = (state) => { try { localStorage.setItem(key, JSON.stringify(state)); } catch { /* kept until closed */ } };
  const state = Object.assign({ done: [], units: "own" }, recall());
  const controls = document.getElementById("controls");
  controls.hidden = false;

  const boxes = [...document.querySelectorAll("input[data-step]")];
  const progress = document.getElementById("progress");
  const count = () => {
    progress.textContent = `${boxes.filter((box) => box.checked).length} of ${boxes.length} steps done`;
  };
  for (const box of boxes) {
    box.checked = state.done.includes(box.dataset.step);
    box.addEventListener("change", () => {
      state.done = boxes.filter((each) => each.checked).map((each) => each.dataset.step);
      keep(state);
      count();
    });
  }
  count();

  const measures = [...document.querySelectorAll("[data-in]")];
  for (const each of measures) each.dataset.own = each.textContent;
  const show = (units) => { for (const each of measures) each.textContent = each.dataset[units]; };
  for (const choice of document.querySelectorAll("input[name=units]")) {
    choice.checked = choice.value === state.units;
    choice.addEventListener("change", () => { state.units = choice.value; keep(state); show(choice.value); });
  }
  if (["in", "mm"].includes(state.units)) show(state.units);

  const dialog = document.getElementById("enlarged");
  if (!dialog.showModal) return;
  const large = dialog.querySelector(".large");
  const [close, other] = dialog.querySelectorAll("button");
  close.addEventListener("click", () => dialog.close());
  // Widths in pixels: first a middle size, in which most of the drawing stays in sight, then far more than its own.
  let sizes = [], size = 0;
  const fit = () => {
    const copy = large.querySelector("svg"), [, , wide, high] = copy.getAttribute("viewBox").split(" ").map(Number);
    copy.setAttribute("width", sizes[size]);
    copy.setAttribute("height", sizes[size] * high / wide);
    large.scrollLeft = (large.scrollWidth - large.clientWidth) / 2;
    large.scrollTop = (large.scrollHeight - large.clientHeight) / 2;
    other.textContent = size ? "Smaller" : "Larger";
  };
  other.addEventListener("click", () => { size = 1 - size; fit(); });
  for (const figure of document.querySelectorAll("figure")) {
    const drawing = figure.querySelector("svg");
    const button = document.createElement("button");
    button.type = "button";
    button.textContent = "Enlarge";
    button.setAttribute("aria-label", "Enlarge: " + drawing.getAttribute("aria-label"));
    button.addEventListener("click", () => {
      const copy = drawing.cloneNode(true);
      const shown = drawing.getBoundingClientRect().width, most = 2.5 * parseFloat(drawing.getAttribute("width")) * 96 / 25.4;
      sizes = [Math.min(1.55 * shown, most), most];
      size = 0;
      large.replaceChildren(copy);
      dialog.showModal();
      fit();
    });
    figure.append(button);
  }
})();
