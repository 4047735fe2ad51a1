// Units as students write them, by symbol or name, measured against the unit asked for; twin of
// generator/saltbridge/answers/unit_words.py. The table of units comes from the page's data, in its language.
// Pure: no page, no storage, no sentence. Loaded first, after nothing.
// Public: saltbridgeUnits = { twelve, atoms, standing, otherSizes }
(() => {
  "use strict";

  const PREFIXES = { p: -12, n: -9, u: -6, m: -3, c: -2, d: -1, h: 2, k: 3, M: 6, G: 9 };
  const SPELLINGS = {
    "µ": "u", "μ": "u", "Ω": "ohm", "\u2126": "ohm", "℃": "°C", "ℓ": "L", "·": " ", "⋅": " ", "∙": " ", "•": " ", "*": " ", "×": " ",
  };
  const RAISED = "⁰¹²³⁴⁵⁶⁷⁸⁹⁻";
  const ATOM = /^([A-Za-z°%]+)(?:\^?(?:(-?[1-9])|\((-?[1-9])\)|\{(-?[1-9])\}))?$/;
  const has = (object, name) => Object.prototype.hasOwnProperty.call(object, name);
  const trimmed = (text) => text.replace(/^ +| +$/g, "");
  const small = (text) => text.replace(/[A-Z]/g, (letter) => letter.toLowerCase());
  const spelt = (text) => Array.from(text, (sign) => SPELLINGS[sign] ?? sign).join("");

  /** Twelve significant digits, ties away from zero: what binary fractions add is gone before anything is compared. */
  const twelve = (value) => Number(value.toPrecision(12));

  /** The words of a unit with their powers; null for a text that can't be a unit. */
  function atoms(text) {
    const lowered = Array.from(spelt(text).replace(/ per /gi, "/"), (sign) => "0123456789-"[RAISED.indexOf(sign)] ?? sign).join("");
    const [over, ...rest] = lowered.split("/");
    const under = trimmed(rest.join("/"));
    if (rest.length > 1 || (rest.length === 1 && under === "")) return null;
    const below = under.startsWith("(") && under.endsWith(")") ? under.slice(1, -1) : under;
    const found = [];
    for (const [side, sign] of [[over, 1], [below, -1]]) {
      for (const word of side.split(" ").filter(Boolean)) {
        const atom = ATOM.exec(word);
        if (atom) found.push([atom[1], sign * Number(atom[2] || atom[3] || atom[4] || "1")]);
        else if (word !== "1" || sign !== 1) return null;
      }
    }
    return found.length ? found : null;
  }

  const same = (one, other) => {
    const bases = new Set([...Object.keys(one.powers), ...Object.keys(other.powers)]);
    return [...bases].every((base) => (one.powers[base] || 0) === (other.powers[base] || 0));
  };
  const entry = (found) => (found ? { size: found[0], powers: found[1] } : null);
  const scaled = (sign, found) => (found && has(PREFIXES, sign) ? { size: found[0] * Number("1e" + PREFIXES[sign]), powers: found[1] } : null);
  const own = (object, name) => (has(object, name) ? object[name] : null);

  function symbol(word, table) {
    if (word === "M") return measured("mol/L", table, symbol);
    return entry(own(table.symbols, word)) || scaled(word.slice(0, 1), own(table.symbols, word.slice(1)));
  }

  /** The unit that a word means where its letters were written small or capital; the prefix as written comes first. */
  function symbolInAnyCase(word, table) {
    const symbols = Object.fromEntries(Object.entries(table.symbols).map(([name, found]) => [small(name), found]));
    const sign = word.slice(0, 1);
    const rest = own(symbols, small(word.slice(1)));
    const swapped = sign === small(sign) ? sign.toUpperCase() : small(sign);
    return entry(own(symbols, small(word))) || scaled(sign, rest) || scaled(swapped, rest);
  }

  /** The unit of a name in small letters, with or without a prefix. */
  function named(name, table) {
    if (has(table.names, name)) return symbol(table.names[name], table);
    for (const [word, sign] of Object.entries(table.prefixes)) {
      const rest = name.slice(word.length);
      if (name.startsWith(word) && has(table.names, rest)) return scaled(sign, own(table.symbols, table.names[rest]));
    }
    return null;
  }

  /** The whole text as one name, else word by word: {size, powers}; null where a word is no unit. */
  function measured(text, table, find) {
    const plain = trimmed(spelt(text));
    const whole = named(small(plain), table);
    const words = whole ? [[plain, 1]] : atoms(text) || [];
    let size = 1;
    const powers = {};
    for (const [word, power] of words) {
      const one = whole || find(word, table) || named(small(word), table);
      if (!one) return null;
      size *= Math.pow(one.size, power);
      Object.entries(one.powers).forEach(([base, times]) => (powers[base] = (powers[base] || 0) + times * power));
    }
    if (words.length > 1 && has(powers, "°C")) {
      powers.K = (powers.K || 0) + powers["°C"];
      delete powers["°C"];
    }
    return words.length === 0 && trimmed(text) !== "" ? null : { size, powers };
  }

  /** How a typed unit stands to the unit asked for, and how many of that are in one of it (1 where they can't be compared). */
  function standing(typed, asked, table) {
    const wanted = measured(asked, table, symbol) || { size: 1, powers: {} };
    const exact = measured(typed, table, symbol);
    if (exact && same(exact, wanted)) return { unit: "known", factor: twelve(exact.size / wanted.size) };
    const loose = measured(typed, table, symbolInAnyCase);
    if (loose && same(loose, wanted)) return { unit: "case", factor: twelve(loose.size / wanted.size) };
    return { unit: exact || loose ? "other" : "unknown", factor: 1 };
  }

  /** How many of the unit asked for are in each unit of its kind that has a symbol of its own. */
  function otherSizes(asked, table) {
    const wanted = asked ? measured(asked, table, symbol) : null;
    if (!wanted) return [];
    return Object.values(table.symbols).map(entry).filter((one) => same(one, wanted)).map((one) => twelve(one.size / wanted.size));
  }

  globalThis.saltbridgeUnits = Object.freeze({ twelve, atoms, standing, otherSizes });
})();
