/* A written answer: a box to write in (none for a sketch), and the points behind their own heading, each with a box to tick. Adds its
   entry to the fields' kinds. The text is kept and never judged; a tick is told at once. */
(() => {
  "use strict";

  const ticks = (form) => Array.from(form.querySelectorAll('input[type="checkbox"]'));

  globalThis.saltbridgeFields.kinds.written = {
    read(form) {
      const box = form.elements.typed;
      const text = box ? box.value : "";
      const ticked = ticks(form).filter((tick) => tick.checked).map((tick) => Number(tick.value));
      return text.trim() || ticked.length ? { text, ticked } : null;
    },
    fill(form, thing) {
      if (thing === null || typeof thing !== "object" || Array.isArray(thing)) {
        return;
      }
      if (form.elements.typed && typeof thing.text === "string") {
        form.elements.typed.value = thing.text;
      }
      const ticked = Array.isArray(thing.ticked) ? thing.ticked : [];
      ticks(form).forEach((tick) => (tick.checked = ticked.includes(Number(tick.value))));
      form.querySelector("details").open = ticks(form).some((tick) => tick.checked);
    },
  };
})();
