// Judges a number with its unit: accepted range, unit, prefix, figures, what follows from earlier answers, known slips; twin of
// generator/saltbridge/answers/judge_number.py. Pure: no page, no storage, no sentence. Loaded after following.js.
// Public: saltbridgeJudgeNumber(key, text, earlier, units)
(() => {
  "use strict";

  const { readNumber, rounded, sizeOf } = globalThis.saltbridgeNumbers;
  const { twelve, standing, otherSizes } = globalThis.saltbridgeUnits;
  const { ownAnswers, ways, settled, onScale, rangeOf, results } = globalThis.saltbridgeFollowing;
  const PREFIX_POWERS = [-9, -6, -3, -2, 2, 3, 6, 9];
  const inside = (value, bounds) => value !== null && bounds !== null && bounds[0] <= value && value <= bounds[1];
  const asksFigures = (key) => key.figures !== null && key.figures !== undefined;
  const asksDecimals = (key) => key.decimals !== null && key.decimals !== undefined;
  const unique = (list) => [...new Set(list)];
  const accepted = (key) => (key.whole ? [Number(key.value), Number(key.value)] : [Number(key.lo), Number(key.hi)]);

  function inAskedUnit(number, key, units) {
    if (number.unit === "") return { number, value: twelve(number.value), factor: 1, unit: "none" };
    const { unit, factor } = standing(number.unit, key.unit, units);
    return { number, value: twelve(number.value * factor), factor, unit };
  }

  // ------------------------------------------------------------ right, right but, unit, prefix

  /** What needs neither graph nor slips; null where more is to be looked at. */
  function plainly(key, typed) {
    const range = accepted(key);
    const unconverted = typed.factor !== 1 && inside(twelve(typed.number.value), range);
    if (typed.unit === "other" || unconverted) return { verdict: "not-yet", why: ["unit"] };
    if (inside(typed.value, range)) {
      const why = remarks(key, typed);
      return { verdict: why.length ? "right-but" : "right", why };
    }
    if (roundedFurther(key, typed, [Number(key.exact), Number(key.value)])) {
      return { verdict: "right-but", why: [...unitRemarks(key, typed), figuresCode(key)] };
    }
    const powers = key.unit ? PREFIX_POWERS.filter((power) => Math.abs(power) > 2 || key.unit === "%") : [];
    const fitting = powers.filter((power) => inside(twelve(typed.value * Number("1e" + power)), range));
    if (fitting.length === 0) return null;
    const ownPrefix = toldSlips(key, typed.value).filter((slip) => inside(middle(key, slip) * Number("1e" + fitting[0]), range));
    return ownPrefix.length ? null : { verdict: "not-yet", why: ["prefix"] };
  }

  function unitRemarks(key, typed) {
    if (typed.unit === "unknown" || (typed.unit === "none" && key.unit && key.unit_beside === false)) return ["unit"];
    return typed.unit === "case" ? ["unit-case"] : [];
  }

  /** What an accepted value still lacks. */
  function remarks(key, typed) {
    const given = figuresGiven(key, typed);
    if (given === "fewer") return [...unitRemarks(key, typed), figuresCode(key)];
    const drifted = given === "more" && !close(key, typed.value);
    return [...unitRemarks(key, typed), ...(drifted ? ["rounding"] : [])];
  }

  const against = (wanted, [least, most]) => (most < wanted ? "fewer" : least > wanted ? "more" : "asked");

  /** Whether a number was given to "fewer", "more" or the figures (or decimals) asked for: "asked". */
  function figuresGiven(key, typed) {
    const { figures, places } = typed.number;
    if (key.whole || (!asksFigures(key) && !asksDecimals(key))) return "asked";
    if (figures === null) return "fewer";
    if (asksFigures(key)) return typed.value === 0 ? "asked" : against(key.figures, figures);
    const shift = powerOfTen(typed.factor);
    return shift === null ? "asked" : against(key.decimals, [-places[1] - shift, -places[0] - shift]);
  }

  const figuresCode = (key) => (!asksFigures(key) && asksDecimals(key) ? "decimals" : "figures");

  /** Within half a place of the unrounded value. */
  function close(key, value) {
    const mine = onScale(key, value);
    const exact = onScale(key, Number(key.exact));
    return mine !== null && exact !== null && twelve(Math.abs(mine - exact)) <= twelve(Number(key.place) / 2);
  }

  /** The power of ten where the factor is one, so that decimals can be counted across prefixes; else null. */
  function powerOfTen(factor) {
    const power = Math.round(Math.log10(factor));
    return Number("1e" + power) === factor ? power : null;
  }

  /** Whether the number is one of these, rounded to fewer figures than asked for, but to one at least. */
  function roundedFurther(key, typed, exact) {
    const { places } = typed.number;
    const shift = powerOfTen(typed.factor);
    if (places === null || shift === null || typed.value === 0 || key.whole) return false;
    return exact.some((value) => {
      const asked = askedPlace(key, value);
      if (asked === null || value === 0) return false;
      const last = Math.min(places[1] + shift, sizeOf(value));
      for (let place = Math.max(places[0] + shift, asked + 1); place <= last; place += 1) {
        if (rounded(value, { decimals: -place }) === typed.value) return true;
      }
      return false;
    });
  }

  /** The power of ten of the last place asked for; null where none is. */
  function askedPlace(key, value) {
    if (asksFigures(key)) return value === 0 ? null : sizeOf(value) - key.figures + 1;
    return asksDecimals(key) ? -key.decimals : null;
  }

  // ------------------------------------------------------------ what follows

  /** Whether the value follows along one of the ways; where all on that way is right, it was only rounded too soon. */
  function follows(key, typed, own) {
    const value = onScale(key, typed.value);
    for (const way of ways(own)) {
      const parts = way.wrong.slice(0, 1);
      if (inside(value, rangeOf(key, way))) {
        if (parts.length === 0) return { verdict: "right-but", why: [...unitRemarks(key, typed), "rounding"] };
        const short = figuresGiven(key, typed) === "fewer" ? [figuresCode(key)] : [];
        return { verdict: "follows", why: [...unitRemarks(key, typed), ...short], parts };
      }
      if (parts.length && key.scale !== "log" && roundedFurther(key, typed, results(key, way.put))) {
        return { verdict: "follows", why: [figuresCode(key)], parts };
      }
    }
    return null;
  }

  // ------------------------------------------------------------ slips

  /** The slips whose range holds the value, each followed by its twins. */
  function toldSlips(key, value) {
    const twins = new Map((key.slips || []).map((slip) => [slip.id, slip.twins || []]));
    const ranges = Object.entries(key.slip_ranges || {});
    const found = ranges.filter(([, bounds]) => inside(value, bounds.map(Number))).map(([id]) => id);
    return unique(found.flatMap((id) => [id, ...(twins.get(id) || [])]));
  }

  function middle(key, slip) {
    const bounds = (key.slip_ranges || {})[slip];
    return bounds ? (Number(bounds[0]) + Number(bounds[1])) / 2 : NaN;
  }

  function isSettled(key, own, slip) {
    return own.some((each) => !each.wrong && each.node === slip.at) || settled(key, own, slip.put);
  }

  /** A known slip, or one on top of the student's own earlier answers; never one against what the student got right. */
  function slipped(key, typed, own) {
    const entries = Object.fromEntries((key.slips || []).map((slip) => [slip.id, slip]));
    const known = toldSlips(key, typed.value).filter((id) => !isSettled(key, own, entries[id] || {}));
    if (known.length) return { verdict: "slip", slips: known };
    const value = onScale(key, typed.value);
    for (const way of ways(own)) {
      const found = possible(key, own, way).filter((slip) => inside(value, rangeOf(key, way, slip.put)));
      if (found.length) {
        const parts = way.wrong.slice(0, 1);
        return { verdict: parts.length ? "slip-on-own" : "slip", slips: unique(found.map((slip) => slip.id)), parts };
      }
    }
    return null;
  }

  /** The slips that can sit on a way: not at a part the student has answered, where they would have shown. */
  const possible = (key, own, way) => (key.slips || []).filter(({ put }) => {
    const nodes = Object.keys(put || {});
    return nodes.length > 0 && !nodes.some((node) => Object.hasOwn(way.put, node)) && !settled(key, own, put);
  });

  // ------------------------------------------------------------ not yet

  /** What to look at: the sign, a whole number, the size of the unit. */
  function reasons(key, typed, own, units) {
    const range = accepted(key);
    const turned = onScale(key, -typed.value);
    if (inside(-typed.value, range) || ways(own).some((way) => inside(turned, rangeOf(key, way)))) return ["sign"];
    if (key.whole && !Number.isInteger(typed.value)) return ["whole"];
    return otherSizes(key.unit, units).some((size) => inside(twelve(typed.value * size), range)) ? ["prefix"] : [];
  }

  globalThis.saltbridgeJudgeNumber = Object.freeze((key, text, earlier, units) => {
    const number = readNumber(text, key.mark || ".");
    if (number.why) return { verdict: "unread", why: [number.why], readings: number.readings };
    const typed = inAskedUnit(number, key, units);
    const own = ownAnswers(key, earlier);
    const found = plainly(key, typed) || follows(key, typed, own) || slipped(key, typed, own);
    return { ...(found || { verdict: "not-yet", why: reasons(key, typed, own, units) }), own: typed.value };
  });
})();
