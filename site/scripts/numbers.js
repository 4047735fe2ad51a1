// Reads typed numbers and units, and rounds on digit strings; twin of generator/saltbridge/answers/numbers.py, where a table
// documents every form. Pure: no page, no storage, no sentence. Loaded before answers.js.
// Public: saltbridgeNumbers = { readNumber, twelve, rounded, sizeOf, findFactor }
(() => {
  "use strict";

  const LONGEST = 80;
  const MINUS = "\u2212";
  const RAISED = "⁰¹²³⁴⁵⁶⁷⁸⁹⁺⁻";
  const LEVEL = "0123456789+-";
  const lowerRaised = (text) => Array.from(text, (c) => LEVEL[RAISED.indexOf(c)] ?? c).join("");

  // ------------------------------------------------------------ rounding

  /** Twelve significant digits, ties away from zero: what binary fractions add is gone before anything is compared. */
  const twelve = (value) => Number(value.toPrecision(12));

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

  // ------------------------------------------------------------ units

  const SPELLINGS = { "µ": "u", "μ": "u", "Ω": "ohm", "\u2126": "ohm", "℃": "°C", "·": " ", "⋅": " ", "∙": " ", "•": " ", "*": " " };
  const SAME = { l: "L", ml: "mL", sec: "s", hr: "h", yr: "y" };
  const ATOM = /^([A-Za-z°%]+)(?:\^?(-?[1-9]))?$/;

  /** The symbols with their powers in alphabetical order, "J:1 K:-1 mol:-1"; null for a text that can't be a unit. */
  function unitKey(text) {
    const plain = lowerRaised(Array.from(text, (c) => SPELLINGS[c] ?? c).join(""));
    const [over, ...rest] = plain.split("/");
    const under = rest.join("/").replace(/^ +| +$/g, "");
    if (rest.length > 1 || (rest.length === 1 && under === "")) return null;
    const below = under.startsWith("(") && under.endsWith(")") ? under.slice(1, -1) : under;
    const powers = new Map();
    for (const [side, sign] of [[over, 1], [below, -1]]) {
      for (const word of side.split(" ").filter(Boolean)) {
        const atom = ATOM.exec(word);
        if (!atom) return null;
        const symbol = Object.prototype.hasOwnProperty.call(SAME, atom[1]) ? SAME[atom[1]] : atom[1];
        powers.set(symbol, (powers.get(symbol) || 0) + sign * Number(atom[2] || "1"));
      }
    }
    const kept = [...powers].filter(([, power]) => power !== 0).map(([symbol, power]) => `${symbol}:${power}`);
    return kept.sort().join(" ") || null;
  }

  /** {factor, exactCase} of a typed unit in a key's table; null where it is not there or its case leaves a doubt. */
  function findFactor(typed, units) {
    const wanted = unitKey(typed);
    const table = new Map(Object.entries(units).map(([unit, factor]) => [unitKey(unit), factor]));
    if (table.has(wanted)) return { factor: Number(table.get(wanted)), exactCase: true };
    const alike = [...table].filter(([key]) => key && wanted && key.toLowerCase() === wanted.toLowerCase());
    return alike.length === 1 ? { factor: Number(alike[0][1]), exactCase: false } : null;
  }

  // ------------------------------------------------------------ reading

  const SPACES = /[ \t\r\n\u00a0\u2007\u2009\u202f]+/g;
  const KNOWN = /^[ -~\u2212\u2010\u2011\u2013×·⋅∙•µμΩ\u2126°℃⁰¹²³⁴⁵⁶⁷⁸⁹⁺⁻]*$/;
  const POWER =
    "(?:(\\^|\\*\\*)? ?(\\()? ?([+-]?) ?([0-9]{1,3}) ?(\\))?|([⁺⁻]?[⁰¹²³⁴⁵⁶⁷⁸⁹]{1,3}))(?![0-9.,⁰¹²³⁴⁵⁶⁷⁸⁹])";
  const FRACTION = /^([+-]?) ?([0-9]{1,6}) ?\/ ?([0-9]{1,6})(?![0-9.,])(.*)$/;
  const ALONE = new RegExp("^([+-]?) ?10(?=\\^|\\*\\*|[⁺⁻⁰¹²³⁴⁵⁶⁷⁸⁹])" + POWER + "(.*)$");
  const PLAIN = /^([+-]?) ?([0-9.,](?:[0-9., ]*[0-9.,])?)(.*)$/;
  const SHORT = /^ ?[eE]([+-]?[0-9]{1,3})(?![0-9.,])(.*)$/;
  const TIMES = new RegExp("^ ?[xX×*·⋅∙•] ?10 ?" + POWER + "(.*)$");
  const WHOLE_GROUPS = /^[0-9]{1,3}( [0-9]{3})+$/;
  const DECIMAL_GROUPS = /^[0-9]{3}( [0-9]{3})*( [0-9]{1,3})?$/;
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
    const text = typed.replace(SPACES, " ").replace(/^ | $/g, "");
    if (text === "") return { why: "empty", readings: [] };
    if (!KNOWN.test(text)) return { why: "not-a-number", readings: [] };
    const dashed = text.replace(/[\u2212\u2010\u2011\u2013]/g, "-");
    try {
      return fraction(dashed) || powerAlone(dashed) || plainNumber(dashed, decimalMark);
    } catch (problem) {
      if (problem instanceof Stop) return problem.found;
      throw problem;
    }
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
    if (Boolean(opening) !== Boolean(closing)) throw new Stop("not-a-number");
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
    if (unit !== "" && unitKey(unit) === null) throw new Stop("not-a-number");
    return unit;
  }

  globalThis.saltbridgeNumbers = Object.freeze({ readNumber, twelve, rounded, sizeOf, findFactor });
})();
