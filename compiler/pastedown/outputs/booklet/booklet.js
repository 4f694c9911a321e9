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
  dialog.querySelector("button").addEventListener("click", () => dialog.close());
  for (const figure of document.querySelectorAll("figure")) {
    const drawing = figure.querySelector("svg");
    const button = document.createElement("button");
    button.type = "button";
    button.textContent = "Enlarge";
    button.setAttribute("aria-label", "Enlarge: " + drawing.getAttribute("aria-label"));
    button.addEventListener("click", () => {
      const copy = drawing.cloneNode(true);
      for (const side of ["width", "height"]) copy.setAttribute(side, `${2 * parseFloat(drawing.getAttribute(side))}mm`);
      large.replaceChildren(copy);
      dialog.showModal();
    });
    figure.append(button);
  }
})();
