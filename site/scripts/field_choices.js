/* Reads and fills options in groups, one of each group. Loaded after fields.js. Its entry: see fields.js. */
(() => {
  "use strict";

  const groups = (form) => Array.from(form.querySelectorAll("[data-group]"));
  const chosen = (group) => group.querySelector("input:checked");

  globalThis.saltbridgeFields.kinds.choices = {
    read(form) {
      const found = groups(form).map((group) => (chosen(group) ? Number(chosen(group).value) : null));
      return found.some((each) => each !== null) ? found : null;
    },
    fill(form, thing) {
      const wanted = [].concat(thing);
      groups(form).forEach((group, at) =>
        group.querySelectorAll("input").forEach((input) => (input.checked = wanted[at] !== null && String(wanted[at]) === input.value)),
      );
    },
  };
})();
