/* The only script that touches the page. It joins a variant into the skeleton, hands answers to saltbridgeAnswers, says the
   verdict in the data block's own sentences, and keeps what was typed. It formats no measured number and holds no sentence.
   Hooks are data- attributes, written by the page's writer; classes are for looks, except for the verdict's own colour. */
(function () {
  "use strict";

  const SCHEMA = 2;
  const SVG = "http://www.w3.org/2000/svg";
  const PAUSE = 60; /* ms between clearing a status line and filling it, so that the same words are said again */

  const data = JSON.parse(document.getElementById("page-data").textContent);
  const memory = globalThis.saltbridgeMemory.open(data.bank);
  const find = (name, within) => (within || document).querySelector("[data-" + name + "]");
  const all = (name, within) => Array.from((within || document).querySelectorAll("[data-" + name + "]"));
  const button = (task, within) => (within || document).querySelector('[data-do="' + task + '"]');
  const fill = (text, values) => text.replace(/\{([a-z]+)\}/g, (hole, name) => (values && name in values ? String(values[name]) : hole));
  const say = (code, values) => fill(data.sentences.actions[code], values);

  /* ---------------------------------------------------------------- the question */

  const place = find("place");
  let now = 0; /* index of the variant that is shown */

  /** Sets a variant's texts into its skeleton, parsed as inert HTML. @param {number} index */
  function draw(index) {
    const variant = data.variants[index];
    const html = data.shapes[variant.shape].chunks.map((chunk) => (typeof chunk === "string" ? chunk : variant.texts[chunk])).join("");
    const parsed = new DOMParser().parseFromString(html, "text/html");
    place.replaceChildren(...Array.from(parsed.body.childNodes));
    now = index;
    startParts();
  }

  /** Starts every part in its own guard: one that fails says so and leaves the others whole. */
  function startParts() {
    const kept = recalled();
    all("part", place).forEach((part, at) => {
      try {
        startPart(part, at, kept);
      } catch (broken) {
        find("verdict", part).textContent = say("broken");
      }
    });
  }

  /** @param {number} at the part's number, from 0 @returns {object} its answer key: the shape's share, the variant's over it */
  function keyOf(at) {
    const variant = data.variants[now];
    const shape = data.shapes[variant.shape];
    return globalThis.saltbridgeAnswers.merge(shape.keys[at], variant.keys[at], shape.graph, variant.given);
  }

  function startPart(part, at, kept) {
    const form = find("kind", part);
    startHints(part);
    if (form.dataset.kind === "order") {
      startOrder(form, part);
    }
    if (kept.typed[part.dataset.part] !== undefined) {
      put(form, kept.typed[part.dataset.part]);
    }
    button("check", form).hidden = false;
    form.addEventListener("input", () => remember());
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      check(part, form, at);
    });
  }

  /* ---------------------------------------------------------------- reading and filling fields */

  /** @returns what was typed or chosen: text, or option numbers in order; null where there is nothing yet */
  function typed(form) {
    const chosen = Array.from(form.querySelectorAll("input:checked"), (input) => Number(input.value));
    switch (form.dataset.kind) {
      case "choice":
      case "several":
        return chosen.length ? chosen : null;
      case "order":
        return all("item", form).map((item) => Number(item.dataset.item));
      default:
        return form.elements.typed.value.trim() || null;
    }
  }

  function put(form, thing) {
    const inputs = Array.from(form.querySelectorAll("input"));
    switch (form.dataset.kind) {
      case "choice":
      case "several":
        inputs.forEach((input) => (input.checked = [].concat(thing).includes(Number(input.value))));
        break;
      case "order": {
        const items = all("item", form);
        const wanted = [].concat(thing).map((name) => items.find((item) => item.dataset.item === String(name)));
        if (wanted.length === items.length && wanted.every(Boolean)) {
          wanted.forEach((item) => item.parentNode.append(item));
          ends(form);
        }
        break;
      }
      default:
        inputs[0].value = String(thing);
    }
  }

  /* ---------------------------------------------------------------- verdicts */

  function check(part, form, at) {
    const answer = typed(form);
    const line = find("verdict", part);
    if (answer === null) {
      tell(line, "unread", data.sentences.why.empty);
      return;
    }
    const key = keyOf(at);
    const verdict = globalThis.saltbridgeAnswers.judge(key, answer, ownBefore(at));
    form.querySelectorAll('input[type="text"]').forEach((box) => box.setAttribute("aria-invalid", String(verdict.verdict === "unread")));
    tell(line, verdict.verdict, sentence(verdict, key));
    remember();
  }

  /** @returns part label → the student's own value, of the parts before this one, from what stands in their fields now */
  function ownBefore(at) {
    const own = {};
    all("part", place)
      .slice(0, at)
      .forEach((part, before) => {
        const form = find("kind", part);
        const answer = form && typed(form);
        if (answer !== null) {
          own[part.dataset.part] = globalThis.saltbridgeAnswers.judge(keyOf(before), answer, own).own;
        }
      });
    return own;
  }

  /** A reason's code, or that of its own sentence where the key asks for no unit, or for one figure or place only. */
  function reason(code, key) {
    if (code === "unit" && !key.unit) return "unit-none";
    return key[code] === 1 ? `${code}-one` : code;
  }

  /** The verdict in words: what it is, why, and for a known slip what to look at. */
  function sentence(verdict, key) {
    const [first, second] = verdict.readings || [];
    const values = Object.assign({}, key, first === undefined ? {} : { first, second });
    const why = verdict.why.map((code) => data.sentences.why[reason(code, key)]).filter(Boolean);
    const hints = verdict.slips.map((id) => hintOf(key, id)).filter(Boolean);
    const said = [data.sentences.verdict[verdict.verdict], ...why.map((text) => fill(text, values)), ...hints];
    if (verdict.verdict === "not-yet" && said.length === 1) {
      said.push(say("try"));
    }
    return said.join(" ");
  }

  /** @returns {string} the hint of a slip: beside the slip in its list, else in the key's own table of hints */
  function hintOf(key, id) {
    const listed = Array.isArray(key.slips) ? key.slips : [];
    const slip = listed.find((each) => each.id === id);
    return (slip && slip.hint) || (key.hints && key.hints[id]) || "";
  }

  /** Words first, then the mark of its own shape; the colour comes from the class. */
  function tell(line, verdict, text) {
    line.textContent = "";
    line.className = "verdict";
    setTimeout(() => {
      line.className = "verdict verdict-" + verdict;
      const words = document.createElement("span");
      words.textContent = text;
      line.replaceChildren(words, sign(verdict));
    }, PAUSE);
  }

  function sign(verdict) {
    const svg = document.createElementNS(SVG, "svg");
    const use = document.createElementNS(SVG, "use");
    svg.setAttribute("class", "sign");
    svg.setAttribute("aria-hidden", "true");
    use.setAttribute("href", "#sign-" + verdict);
    svg.append(use);
    return svg;
  }

  /* ---------------------------------------------------------------- hints and ordering */

  /** Hints come one at a time: the next shows when the one before has been opened. */
  function startHints(part) {
    const hints = all("hint", part);
    hints.forEach((hint, at) => {
      hint.hidden = at > 0;
      hint.addEventListener("toggle", () => {
        if (hint.open && hints[at + 1]) {
          hints[at + 1].hidden = false;
        }
      });
    });
  }

  function startOrder(form, part) {
    form.querySelectorAll('[data-do="up"], [data-do="down"]').forEach((mover) => {
      mover.hidden = false;
      mover.addEventListener("click", () => move(mover, form, part));
    });
    ends(form);
  }

  /** Moves an entry by one place. The focus stays on its button, so it can be pressed again. */
  function move(mover, form, part) {
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
    remember();
    const items = all("item", form);
    const values = { thing: item.firstElementChild.textContent, place: items.indexOf(item) + 1, count: items.length };
    const line = find("verdict", part);
    line.className = "verdict";
    line.textContent = say("moved", values);
  }

  /** The first can't go up and the last can't go down; they say so but keep the focus (disabled buttons would lose it). */
  function ends(form) {
    const items = all("item", form);
    items.forEach((item, at) => {
      button("up", item).setAttribute("aria-disabled", String(at === 0));
      button("down", item).setAttribute("aria-disabled", String(at === items.length - 1));
    });
  }

  /* ---------------------------------------------------------------- memory */

  /** @returns what was typed for the variant that is shown */
  function recalled() {
    const kept = memory.recall(data.question) || {};
    const typedThere = kept.typed && kept.typed[data.variants[now].number];
    return { typed: typedThere && typeof typedThere === "object" ? typedThere : {} };
  }

  function remember() {
    const kept = memory.recall(data.question) || {};
    const fields = {};
    all("part", place).forEach((part) => {
      const form = find("kind", part); /* missing in a part that could not start */
      const answer = form && typed(form);
      if (answer !== null) {
        fields[part.dataset.part] = answer;
      }
    });
    const number = data.variants[now].number;
    const everything = Object.assign({}, kept.typed, { [number]: fields });
    memory.keep(data.question, { number, typed: everything });
  }

  function startMemory() {
    const line = find("memory-says");
    find("memory").hidden = false;
    line.textContent = say(memory.works() ? "kept" : "not-kept");
    button("forget").addEventListener("click", () => {
      memory.forget();
      if (place) {
        draw(now);
      }
      line.textContent = say("forgotten");
    });
  }

  /* ---------------------------------------------------------------- start */

  function startFresh() {
    const line = find("fresh");
    if (!line) {
      return;
    }
    line.hidden = false;
    button("fresh", line).addEventListener("click", () => {
      draw((now + 1) % data.variants.length);
      remember();
      find("fresh-says").textContent = say("fresh", { number: now + 1, count: data.variants.length });
    });
  }

  function startQuestion() {
    const kept = memory.recall(data.question);
    const index = kept ? data.variants.findIndex((variant) => variant.number === kept.number) : 0;
    if (index > 0) {
      draw(index);
    } else {
      startParts();
    }
    startFresh();
  }

  /** On paper every working lies open; afterwards each is as it was. */
  function startPrinting() {
    let opened = [];
    addEventListener("beforeprint", () => {
      opened = all("working").filter((working) => !working.open);
      opened.forEach((working) => (working.open = true));
    });
    addEventListener("afterprint", () => opened.forEach((working) => (working.open = false)));
  }

  const fault = find("fault");
  if (data.schema !== SCHEMA && fault) {
    fault.textContent = say("unknown-data");
    fault.hidden = false;
    return;
  }
  startPrinting();
  if (place) {
    startQuestion();
  }
  startMemory();
})();
