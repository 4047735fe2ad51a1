// Reads and fills the fields of answers, one entry a kind; a kind with a file of its own adds its entry to `kinds`. Loaded before page.js.
// An entry: read(form) → what was typed or chosen, null where there is nothing yet; fill(form, thing), which leaves the field alone
// where the thing does not fit; optional are start(form, page), with page = { changed(), say(code, values) }, show(form, verdict, page)
// where a verdict is told at the fields too, and clear(form, edited), which takes it away again.
// Public: saltbridgeFields = { kinds, read, fill, start, show, clear }
(() => {
  "use strict";

  const items = (form) => Array.from(form.querySelectorAll("[data-item]"));
  const button = (task, within) => within.querySelector('[data-do="' + task + '"]');

  /* ---------------------------------------------------------------- a box */

  const box = {
    read: (form) => form.elements.typed.value.trim() || null,
    fill(form, thing) {
      if (typeof thing === "string") {
        form.elements.typed.value = thing;
      }
    },
  };

  /* ---------------------------------------------------------------- options */

  const choice = {
    read(form) {
      const chosen = Array.from(form.querySelectorAll("input:checked"), (input) => Number(input.value));
      return chosen.length ? chosen : null;
    },
    fill(form, thing) {
      form.querySelectorAll("input").forEach((input) => (input.checked = [].concat(thing).includes(Number(input.value))));
    },
  };

  /* ---------------------------------------------------------------- an order */

  const order = {
    read: (form) => items(form).map((item) => Number(item.dataset.item)),
    fill(form, thing) {
      const all = items(form);
      const wanted = [].concat(thing).map((name) => all.find((item) => item.dataset.item === String(name)));
      if (wanted.length === all.length && wanted.every(Boolean)) {
        wanted.forEach((item) => item.parentNode.append(item));
        ends(form);
      }
    },
    start(form, page) {
      form.querySelectorAll('[data-do="up"], [data-do="down"]').forEach((mover) => {
        mover.hidden = false;
        mover.addEventListener("click", () => move(mover, form, page));
      });
      ends(form);
    },
  };

  /** Moves an entry by one place. The focus stays on its button, so it can be pressed again. */
  function move(mover, form, page) {
    const item = mover.closest("[data-item]");
    const other = mover.dataset.do === "up" ? item.previousElementSibling : item.nextElementSibling;
    if (!other) {
      return;
    }
    if (mover.dataset.do === "up") {
      item.after(other);
    } else {
      item.before(other);
    }
    ends(form);
    const all = items(form);
    const values = { thing: item.firstElementChild.textContent, place: all.indexOf(item) + 1, count: all.length };
    page.changed();
    page.say("moved", values);
  }

  /** The first can't go up and the last can't go down; they say so but keep the focus (disabled buttons would lose it). */
  function ends(form) {
    const all = items(form);
    all.forEach((item, at) => {
      button("up", item).setAttribute("aria-disabled", String(at === 0));
      button("down", item).setAttribute("aria-disabled", String(at === all.length - 1));
    });
  }

  /* ---------------------------------------------------------------- all kinds */

  const kinds = { number: box, equation: box, word: box, notation: box, choice, several: choice, order };
  const of = (form) => kinds[form.dataset.kind];
  const boxes = (form) => form.querySelectorAll('input[type="text"]');

  function show(form, verdict, page) {
    if (of(form).show) {
      of(form).show(form, verdict, page);
    } else {
      boxes(form).forEach((each) => each.setAttribute("aria-invalid", String(verdict.verdict === "unread")));
    }
  }

  function clear(form, edited) {
    if (of(form).clear) {
      of(form).clear(form, edited);
    } else {
      boxes(form).forEach((each) => each.removeAttribute("aria-invalid"));
    }
  }

  globalThis.saltbridgeFields = Object.freeze({
    kinds,
    read: (form) => of(form).read(form),
    fill: (form, thing) => of(form).fill(form, thing),
    start: (form, page) => (of(form).start ? of(form).start(form, page) : undefined),
    show,
    clear,
  });
})();
