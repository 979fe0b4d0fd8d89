// Pages are whole without this. It keeps what was opened open, and answers taps at once.
(() => {
  "use strict";
  let open = new Set();

  document.addEventListener("htmx:beforeSwap", () => {
    open = new Set([...document.querySelectorAll("details[open][id]")].map((one) => one.id));
  });

  document.addEventListener("htmx:afterSettle", () => {
    for (const id of open) document.getElementById(id)?.setAttribute("open", "");
  });

  // Leaving a box presses no button, whichever was pressed before.
  document.addEventListener("htmx:configRequest", (event) => {
    if (event.detail.triggeringEvent?.type !== "change") return;
    for (const button of event.target.querySelectorAll("button[name]")) {
      delete event.detail.parameters[button.name];
    }
  });

  // The scoops of a row count on the spot; the sum follows.
  document.addEventListener("click", (event) => {
    const button = event.target.closest("button[data-step]");
    if (!button || !window.htmx) return;
    const box = document.getElementById(button.dataset.of);
    const count = Number(box.value || 0) + Number(button.dataset.step);
    if (!Number.isInteger(count)) return;
    event.preventDefault();
    box.value = Math.min(Math.max(count, 0), Number(box.dataset.most));
    box.dispatchEvent(new Event("change", { bubbles: true }));
  });
})();
