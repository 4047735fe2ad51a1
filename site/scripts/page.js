/* The only script that touches the page. It joins a variant into the skeleton, hands answers to saltbridgeAnswers, says the
   verdict in the data block's own sentences, and keeps what was typed. It formats no measured number and holds no sentence.
   Hooks are data- attributes, written by the page's writer; classes are for looks, except for the verdict's own colour. */
(function () {
  "use strict";

  const SCHEMA = 2;
  const SVG = "http://www.w3.org/2000/svg";
  const PAUSE = 60; /* ms between clearing a status line and filling it, so that the same words are said again */

  const data = JSON.parse(document.getElementById("page-data").textContent);
  const fields = globalThis.saltbridgeFields;
  const memory = globalThis.saltbridgeMemory.open(data.bank);
  const find = (name, within) => (within || document).querySelector("[data-" + name + "]");
  const all = (name, within) => Array.from((within || document).querySelectorAll("[data-" + name + "]"));
  const button = (task, within) => (within || document).querySelector('[data-do="' + task + '"]');
  const fill = (text, values) => text.replace(/\{([a-z]+)\}/g, (hole, name) => (values && name in values ? String(values[name]) : hole));
  const say = (code, values) => fill(data.sentences.actions[code], values);

  /* ---------------------------------------------------------------- the question */

  const place = find("place");
  let now = 0; /* index of the variant that is shown */
  let checks = {}; /* part label → how often each finding was told there: {finding: times} */

  /** Sets a variant's texts into its skeleton, parsed as inert HTML. @param {number} index */
  function draw(index) {
    const variant = data.variants[index];
    const html = data.shapes[variant.shape].chunks.map((chunk) => (typeof chunk === "string" ? chunk : variant.texts[chunk])).join("");
    const parsed = new DOMParser().parseFromString(html, "text/html");
    place.replaceChildren(...Array.from(parsed.body.childNodes));
    now = index;
    checks = {};
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
    all("line", part).forEach((each) => widths.observe(each));
    fields.start(form, { changed: () => edited(part, form), say: (code, values) => plainly(part, say(code, values)) });
    if (kept.typed[part.dataset.part] !== undefined) {
      fields.fill(form, kept.typed[part.dataset.part]);
    }
    startTelling(part, form, at);
    form.addEventListener("input", (event) => edited(part, form, event.target));
    form.addEventListener("change", () => checkAgain(at));
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      check(part, form, at);
      checkAgain(at);
    });
  }

  /** A field with a button is checked by it; one without is told at once what there is to tell, also when the page comes back. */
  function startTelling(part, form, at) {
    const checker = button("check", form);
    if (checker) {
      checker.hidden = false;
      return;
    }
    const atOnce = () => {
      const answer = fields.read(form);
      if (answer !== null && judge(at, answer, {}).verdict !== "unread") {
        check(part, form, at);
      }
    };
    form.addEventListener("change", atOnce);
    atOnce();
  }

  function edited(part, form, field) {
    changed(part, form, field);
    remember();
  }

  /* ---------------------------------------------------------------- verdicts */

  const line = (part) => find("verdict", part);

  function check(part, form, at) {
    const answer = fields.read(form);
    if (answer === null) {
      tell(line(part), "unread", data.sentences.why.empty);
      return;
    }
    const verdict = judge(at, answer, ownBefore(at));
    const key = keyOf(at);
    const ofCell = (each, cell) => sentence(each, cell, timesTold(cell.label, each));
    fields.show(form, verdict, { key, sign, word: say, sentence: ofCell });
    tell(line(part), verdict.verdict, sentence(verdict, key, timesTold(part.dataset.part, verdict)));
    part.dataset.judged = JSON.stringify(verdict);
    remember();
  }

  const judge = (at, answer, own) => globalThis.saltbridgeAnswers.judge(keyOf(at), answer, own, data.units);

  /** Says something at a part that is no verdict. */
  function plainly(part, text) {
    line(part).className = "verdict";
    line(part).textContent = text;
  }

  /** A verdict does not stay beside an answer that it is not about. */
  function changed(part, form, field) {
    fields.clear(form, field);
    if (part.dataset.judged === undefined) {
      return;
    }
    delete part.dataset.judged;
    plainly(part, "");
  }

  /** Judges the later parts again that show a verdict, and says it where it is another one. */
  function checkAgain(at) {
    all("part", place).forEach((part, later) => {
      const form = later > at && part.dataset.judged !== undefined ? find("kind", part) : null;
      const answer = form && fields.read(form);
      if (form && answer !== null && JSON.stringify(judge(later, answer, ownBefore(later))) !== part.dataset.judged) {
        check(part, form, later);
      }
    });
  }

  /** How often this very finding has been told at a part, from 0. */
  function timesTold(label, verdict) {
    const told = (checks[label] = checks[label] || {});
    const finding = verdict.slips.join();
    told[finding] = (told[finding] ?? -1) + 1;
    return told[finding];
  }

  /** @returns part label → the student's own value, of the parts before this one, from what stands in their fields now */
  function ownBefore(at) {
    const own = {};
    all("part", place)
      .slice(0, at)
      .forEach((part, before) => {
        const form = find("kind", part);
        const answer = form && fields.read(form);
        if (answer !== null) {
          Object.assign(own, globalThis.saltbridgeAnswers.owned(keyOf(before), part.dataset.part, judge(before, answer, own)));
        }
      });
    return own;
  }

  /** Whether a table has a wrong cell of which nothing can be said. */
  const leavesOpen = (key, { cells = [] }) =>
    cells.some((each, at) => each.verdict === "not-yet" && each.why.length + each.slips.length === 0 && !key.cells[at].otherwise);

  const tally = (key, verdict) => (verdict.cells ? globalThis.saltbridgeJudgeTable.tally(key, verdict) : {});

  /** What an earlier answer is called: the letter of its part, or the row and column of its cell. */
  function calledHere(label) {
    const name = label && place.querySelector('[data-cell="' + label + '"] [data-name]');
    return name ? name.textContent : label;
  }

  /** A reason's code, or that of its own sentence where the key asks for no unit, or for one figure only. */
  function reason(code, key) {
    if (code === "unit" && !key.unit) {
      return "unit-none";
    }
    return code === "figures" && key.figures === 1 ? "figures-one" : code;
  }

  /** The verdict in words: what it is, why, and for a known common error one hint: the likeliest, then the next, and round again.
      @param {number} times how often it has been told before */
  function sentence(verdict, key, times) {
    const [first, second] = verdict.readings;
    const called = { first, second, part: calledHere(verdict.parts[0]), marks: verdict.marks };
    const values = Object.assign({}, key, called, tally(key, verdict));
    const why = verdict.why.map((code) => data.sentences.why[reason(code, key)]);
    const hints = verdict.slips.map((id) => data.hints[id]).filter(Boolean);
    const said = [data.sentences.verdict[verdict.verdict], ...why, hints[times % hints.length]].filter(Boolean);
    if (verdict.verdict === "not-yet" && (said.length === 1 || key.whys || leavesOpen(key, verdict))) {
      said.push(key.otherwise || say("try"));
    }
    return said.map((text) => fill(text, values)).join(" ");
  }

  /** Words first, then the mark of its own shape; the colour comes from the class. */
  function tell(status, verdict, text) {
    status.textContent = "";
    status.className = "verdict";
    setTimeout(() => {
      status.className = "verdict verdict-" + verdict;
      const words = document.createElement("span");
      words.textContent = text;
      status.replaceChildren(words, sign(verdict));
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

  /* ---------------------------------------------------------------- hints */

  /** A line wider than its room can be reached and scrolled by keyboard, and says so; one that fits is no stop on the way. */
  const widths = new ResizeObserver((seen) =>
    seen.forEach(({ target }) => {
      const wide = target.scrollWidth > target.clientWidth;
      const told = { tabindex: "0", role: "group", "aria-label": say("wide") };
      Object.entries(told).forEach(([name, value]) => (wide ? target.setAttribute(name, value) : target.removeAttribute(name)));
    }),
  );

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

  /* ---------------------------------------------------------------- memory */

  /** @returns what was typed for the variant that is shown */
  function recalled() {
    const kept = memory.recall(data.question) || {};
    const typedThere = kept.typed && kept.typed[data.variants[now].number];
    return { typed: typedThere && typeof typedThere === "object" ? typedThere : {} };
  }

  function remember() {
    const kept = memory.recall(data.question) || {};
    const answers = {};
    all("part", place).forEach((part) => {
      const form = find("kind", part); /* missing in a part that could not start */
      const answer = form && fields.read(form);
      if (answer !== null) {
        answers[part.dataset.part] = answer;
      }
    });
    const number = data.variants[now].number;
    const everything = Object.assign({}, kept.typed, { [number]: answers });
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
