// Reads and fills a table of fields, and tells each blank cell its own verdict. Loaded after fields.js, to whose kinds it adds `table`.
(() => {
  "use strict";

  const HANGS = ["follows", "slip-on-own"]; // verdicts that hang on what stands in other fields
  const cells = (form) => Array.from(form.querySelectorAll("[data-cell]"));
  const inputs = (cell) => Array.from(cell.querySelectorAll("input"));
  const line = (cell) => cell.querySelector("[data-cell-verdict]");
  const notes = (form) => form.querySelector("[data-cell-notes]");

  function readCell(cell) {
    if (cell.dataset.cellKind === "choice") {
      const chosen = inputs(cell).filter((input) => input.checked);
      return chosen.length ? chosen.map((input) => Number(input.value)) : null;
    }
    return inputs(cell)[0].value.trim() || null;
  }

  function fillCell(cell, thing) {
    if (cell.dataset.cellKind === "choice") {
      inputs(cell).forEach((input) => (input.checked = [].concat(thing).includes(Number(input.value))));
    } else {
      inputs(cell)[0].value = typeof thing === "string" ? thing : "";
    }
  }

  /** The word at the cell: of what is left empty, of what could not be read, or of its verdict. */
  function code({ verdict, why }) {
    if (verdict === "unread") {
      return why.includes("empty") ? "cell-empty" : "cell-unread";
    }
    return "cell-" + (["right", "right-but", "follows"].includes(verdict) ? verdict : "not-yet");
  }

  function tell(cell, verdict, page) {
    const words = document.createElement("span");
    words.textContent = page.word(code(verdict));
    line(cell).className = "cell-verdict verdict-" + verdict.verdict;
    line(cell).replaceChildren(words, page.sign(verdict.verdict));
    cell.dataset.told = verdict.verdict;
    inputs(cell)
      .filter((input) => input.type === "text")
      .forEach((box) => box.setAttribute("aria-invalid", String(code(verdict) === "cell-unread")));
  }

  function quiet(form, cell) {
    line(cell).className = "cell-verdict";
    line(cell).replaceChildren();
    delete cell.dataset.told;
    inputs(cell).forEach((input) => input.removeAttribute("aria-invalid"));
    form.querySelectorAll('[data-note="' + cell.dataset.cell + '"]').forEach((note) => note.remove());
  }

  /** Whether anything is to be said of a cell beside its word. */
  const isTelling = ({ verdict, why, slips }, { otherwise }) =>
    verdict !== "right" && !why.includes("empty") && (verdict !== "not-yet" || why.length + slips.length > 0 || otherwise !== undefined);

  /** What is said of a cell beneath the table, under the names of its row and column. */
  function note(cell, text) {
    const item = document.createElement("li");
    const name = document.createElement("strong");
    name.append(...Array.from(cell.querySelector("[data-name]").childNodes, (node) => node.cloneNode(true)), ":");
    item.dataset.note = cell.dataset.cell;
    item.append(name, " " + text);
    return item;
  }

  globalThis.saltbridgeFields.kinds.table = {
    read(form) {
      const all = cells(form).map(readCell);
      return all.every((each) => each === null) ? null : all;
    },
    fill(form, thing) {
      const all = cells(form);
      if (Array.isArray(thing) && thing.length === all.length) {
        all.forEach((cell, at) => fillCell(cell, thing[at]));
      }
    },
    show(form, verdict, page) {
      const all = cells(form);
      all.forEach((cell) => quiet(form, cell));
      (verdict.cells || []).forEach((each, at) => tell(all[at], each, page));
      const told = (verdict.cells || []).map((each, at) => [each, at]).filter(([each, at]) => isTelling(each, page.key.cells[at]));
      notes(form).replaceChildren(...told.map(([each, at]) => note(all[at], page.sentence(each, page.key.cells[at]))));
    },
    /** An edited cell loses its verdict, and so do those whose verdict hangs on other fields; the rest stands. */
    clear(form, edited) {
      const cell = edited && edited.closest("[data-cell]");
      cells(form)
        .filter((each) => !cell || each === cell || HANGS.includes(each.dataset.told))
        .forEach((each) => quiet(form, each));
    },
  };
})();
