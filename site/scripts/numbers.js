// Reads typed numbers, and rounds on digit strings; twin of generator/saltbridge/answers/numbers.py, where a table
// documents every form. Pure: no page, no storage, no sentence. Loaded after units.js.
// Public: saltbridgeNumbers = { readNumber, cleaned, twelve, rounded, sizeOf }
(() => {
  "use strict";

  const { twelve, atoms } = globalThis.saltbridgeUnits;
  const LONGEST = 80;
  const MINUS = "\u2212";
  const RAISED = "⁰¹²³⁴⁵⁶⁷⁸⁹⁺⁻";
  const LEVEL = "0123456789+-";
  const lowerRaised = (text) => Array.from(text, (c) => LEVEL[RAISED.indexOf(c)] ?? c).join("");

  // ------------------------------------------------------------ rounding

  /** The power of ten of the first of twelve digits. */
  const sizeOf = (value) => Number(value.toExponential(11).split("e")[1]);

  /** The value rounded to {figures} or {decimals}, half away from zero after twelve digits; done on the digits. */
  function rounded(value, { figures, decimals }) {
    if (value === 0) return 0;
    const [mantissa, power] = Math.abs(value).toExponential(11).split("e");
    const digits = mantissa.replace(".", "");
    const kept = figures === undefined ? decimals + Number(power) + 1 : figures;
    if (kept < 0) return 0;
    const up = (digits[kept] || "0") >= "5" ? 1n : 0n;
    const whole = BigInt(digits.slice(0, kept) || "0") + up;
    const last = Number(power) + 1 - Math.min(kept, digits.length);
    return Math.sign(value) * Number(`${whole}e${last}`);
  }

  // ------------------------------------------------------------ reading

  const UNSEEN = /[\u200b\u200c\u200d\u2060\ufeff]/g;
  const SPACES = /[ \t\r\n\u00a0\u2007\u2009\u202f]+/g;
  const DASHES = /[\u2212\u2010-\u2015\ufe58\ufe63\uff0d]/g;
  const KNOWN = /^[ -~×·⋅∙•µμΩ\u2126°℃ℓ⁰¹²³⁴⁵⁶⁷⁸⁹⁺⁻]*$/;
  const NAME = /^(?:[A-Za-zΔνη][^=≈]{0,30})?[=≈] ?/;
  const POWER =
    "(?:(\\^|\\*\\*)? ?([({])? ?([+-]?) ?([0-9]{1,3}) ?([)}])?|([⁺⁻]?[⁰¹²³⁴⁵⁶⁷⁸⁹]{1,3}))(?![0-9.,⁰¹²³⁴⁵⁶⁷⁸⁹])";
  const FRACTION = /^([+-]?) ?([0-9]{1,6}) ?\/ ?([0-9]{1,6})(?![0-9.,])(.*)$/;
  const ALONE = new RegExp("^([+-]?) ?10(?=\\^|\\*\\*|[⁺⁻⁰¹²³⁴⁵⁶⁷⁸⁹])" + POWER + "(.*)$");
  const PLAIN = /^([+-]?) ?([0-9.,](?:[0-9., ]*[0-9.,])?)(.*)$/;
  const SHORT = /^ ?[eE]([+-]?[0-9]{1,3})(?![0-9.,])(.*)$/;
  const TIMES = new RegExp("^ ?[xX×*·⋅∙•] ?10 ?" + POWER + "(.*)$");
  const WHOLE_GROUPS = /^[0-9]{1,3}( [0-9]{3})+$/;
  const DECIMAL_GROUPS = /^[0-9]{3}( [0-9]{3})*( [0-9]{1,3})?$/;
  const [HOURS, MINUTES, SECONDS] = ["(?:h|hrs?|hours?|Std|Stunden?)", "(?:min|mins|minutes?|Minuten?)", "(?:s|secs?|seconds?|Sekunden?)"];
  const [AMOUNT, AND] = ["([0-9]{1,6}(?:[.,][0-9]{1,6})?)", "(?: (?:and|und) |, ?| ?)"];
  const DURATION = new RegExp(`^(?:${AMOUNT} ?${HOURS})?(?:${AND}${AMOUNT} ?${MINUTES})?(?:${AND}${AMOUNT} ?${SECONDS})?$`, "i");
  const THOUSANDS = /^[1-9][0-9]{0,2}[.,][0-9]{3}$/;

  /** Thrown while reading, caught in readNumber. */
  class Stop extends Error {
    constructor(why, readings = []) {
      super(why);
      this.found = { why, readings };
    }
  }

  /** Read a typed number: {value, unit, figures, places} or {why, readings}. Never throws. */
  function readNumber(typed, decimalMark = ".") {
    if (typeof typed !== "string") return { why: "empty", readings: [] };
    if (typed.length > 2 * LONGEST || Array.from(typed).length > LONGEST) return { why: "too-long", readings: [] };
    const named = cleaned(typed);
    if (named === "") return { why: "empty", readings: [] };
    const text = unclosed(named.replace(NAME, ""));
    if (!KNOWN.test(text)) return { why: "not-a-number", readings: [] };
    try {
      return duration(text) || fraction(text) || powerAlone(text) || plainNumber(text, decimalMark);
    } catch (problem) {
      if (problem instanceof Stop) return problem.found;
      throw problem;
    }
  }

  /** The text without what can't be seen, with one space for each run of them and one sign for every dash. */
  const cleaned = (text) => text.replace(UNSEEN, "").replace(SPACES, " ").replace(/^ | $/g, "").replace(DASHES, "-");

  /** Without the point that closes a sentence; the point of "5." stays. */
  function unclosed(text) {
    const before = text.slice(0, -1).replace(/ +$/, "");
    return text.endsWith(".") && /[.,]|[A-Za-z%)]$/.test(before) ? before : text;
  }

  /** Hours, minutes and seconds, at least two of them, in seconds. */
  function duration(text) {
    const found = DURATION.exec(text);
    const told = found ? [3600, 60, 1].map((size, at) => [size, found[at + 1]]).filter(([, amount]) => amount) : [];
    if (told.length < 2) return null;
    const value = told.reduce((sum, [size, amount]) => sum + size * Number(amount.replace(",", ".")), 0);
    return { value, unit: "s", figures: [1, 99], places: [-99, 99] };
  }

  function fraction(text) {
    const found = FRACTION.exec(text);
    if (!found) return null;
    if (Number(found[3]) === 0) throw new Stop("not-a-number");
    const value = Number(found[2]) / Number(found[3]);
    return { value: found[1] === "-" ? -value : value, unit: unitOf(found[4]), figures: null, places: null };
  }

  function powerAlone(text) {
    const found = ALONE.exec(text);
    if (!found) return null;
    const exponent = exponentOf(found.slice(2, 8));
    return { value: valueOf(found[1], "1", exponent), unit: unitOf(found[8]), figures: [1, 1], places: [exponent, exponent] };
  }

  function plainNumber(text, decimalMark) {
    const found = PLAIN.exec(text);
    if (!found) throw new Stop("not-a-number");
    const [, sign, digits, tail] = found;
    const { whole, decimals, marked } = splitDigits(digits, decimalMark, sign);
    const { exponent, rest } = scaleOf(tail);
    const value = valueOf(sign, `${whole || "0"}.${decimals || "0"}`, exponent);
    const significant = (whole + decimals).replace(/^0+/, "") || "0";
    const loose = marked ? 0 : significant.length - (significant.replace(/0+$/, "") || "0").length;
    const last = exponent - decimals.length;
    const figures = [significant.length - loose, significant.length];
    return { value, unit: unitOf(rest), figures, places: [last, last + loose] };
  }

  /** The power of ten after the digits, 0 where there is none, and what follows it. */
  function scaleOf(tail) {
    const short = SHORT.exec(tail);
    if (short) return { exponent: Number(short[1]), rest: short[2] };
    const times = TIMES.exec(tail);
    return times ? { exponent: exponentOf(times.slice(1, 7)), rest: times[7] } : { exponent: 0, rest: tail };
  }

  function exponentOf([caret, opening, sign, figures, closing, raised]) {
    if (raised) return Number(lowerRaised(raised));
    if (!["", "()", "{}"].includes((opening || "") + (closing || ""))) throw new Stop("not-a-number");
    if (!caret && !sign) throw new Stop("power");
    return Number((sign || "") + figures);
  }

  /** Digits before and after the mark, and whether there is a mark. */
  function splitDigits(text, decimalMark, sign) {
    const points = text.split(".").length - 1;
    const commas = text.split(",").length - 1;
    const shown = sign === "-" ? MINUS : "";
    if (points && commas) {
      if (points + commas > 2) throw new Stop("two-marks");
      const tight = text.replaceAll(" ", "");
      const without = [tight.replace(",", ""), tight.replace(".", "").replace(",", ".")];
      throw new Stop("ambiguous", without.map((reading) => shown + reading.replace(".", decimalMark)));
    }
    if (points + commas > 1) throw new Stop("two-marks");
    const mark = points ? "." : ",";
    if (points + commas && mark !== decimalMark && THOUSANDS.test(text)) {
      throw new Stop("ambiguous", [shown + text.replace(mark, decimalMark), shown + text.replace(mark, "")]);
    }
    const [whole, decimals = ""] = text.split(mark);
    if ((whole.includes(" ") && !WHOLE_GROUPS.test(whole)) || (decimals.includes(" ") && !DECIMAL_GROUPS.test(decimals))) {
      throw new Stop("spaces");
    }
    if (whole === "" && decimals === "") throw new Stop("not-a-number");
    return { whole: whole.replaceAll(" ", ""), decimals: decimals.replaceAll(" ", ""), marked: points + commas > 0 };
  }

  function valueOf(sign, digits, exponent) {
    const value = Number(`${sign}${digits}e${exponent}`);
    if (!Number.isFinite(value) || (value === 0 && /[1-9]/.test(digits))) throw new Stop("too-far");
    return value;
  }

  /** What follows the number, where it can be a unit. */
  function unitOf(rest) {
    const unit = rest.replace(/^ +| +$/g, "");
    if (unit !== "" && atoms(unit) === null) throw new Stop("not-a-number");
    return unit;
  }

  globalThis.saltbridgeNumbers = Object.freeze({ readNumber, cleaned, twelve, rounded, sizeOf });
})();
