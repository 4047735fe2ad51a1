/* Keeps what was typed, in this browser only. Every call is guarded: storage may be full, forbidden or shared with every
   other page on the computer (file://), so keys start with our name, a schema number and the bank, and the page works without. */
(function () {
  "use strict";

  const SCHEMA = 1;

  /** @param {string} bank @returns what a page may do with its memory */
  function open(bank) {
    const prefix = "saltbridge:" + SCHEMA + ":" + bank + ":";

    /** @returns {boolean} whether anything can be kept at all */
    function works() {
      try {
        localStorage.setItem(prefix + "?", "1");
        localStorage.removeItem(prefix + "?");
        return true;
      } catch (refused) {
        return false;
      }
    }

    /** @param {string} name @returns {object|null} what was kept, or null where there is nothing or it can't be read */
    function recall(name) {
      try {
        const kept = JSON.parse(localStorage.getItem(prefix + name) || "null");
        return kept && typeof kept === "object" ? kept : null;
      } catch (unreadable) {
        return null;
      }
    }

    /** @param {string} name @param {object} thing @returns {boolean} whether it was kept */
    function keep(name, thing) {
      try {
        localStorage.setItem(prefix + name, JSON.stringify(thing));
        return true;
      } catch (refused) {
        return false;
      }
    }

    /** Forgets everything of this bank and nothing of anyone else. */
    function forget() {
      try {
        for (const key of Object.keys(localStorage)) {
          if (key.startsWith(prefix)) {
            localStorage.removeItem(key);
          }
        }
      } catch (refused) {
        /* nothing was kept where storage is refused */
      }
    }

    return Object.freeze({ works, recall, keep, forget });
  }

  globalThis.saltbridgeMemory = Object.freeze({ open });
})();
