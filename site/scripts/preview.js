// Looks whether what is shown was made anew, and goes through the versions by the arrow keys. It stands in the pages of a
// preview only, never in one that is published.
(() => {
  "use strict";
  const PAUSE = 400; // ms between two looks
  const { stamp, watch } = document.body.dataset;
  const frame = document.querySelector("iframe");
  const kept = `preview ${location.pathname}`;

  // Where the page in the frame was scrolled to; the browser keeps that of this page itself.
  const keep = () => frame && sessionStorage.setItem(kept, String(frame.contentWindow.scrollY));
  const restore = () => {
    const place = Number(sessionStorage.getItem(kept));
    sessionStorage.removeItem(kept);
    if (place) frame.contentWindow.scrollTo(0, place);
  };

  const look = async () => {
    const over = document.querySelector("[data-over]");
    try {
      const answer = await fetch(watch, { cache: "no-store" });
      const now = (await answer.text()).trim();
      over.hidden = true;
      if (answer.ok && now !== stamp) {
        keep();
        location.reload();
        return;
      }
    } catch {
      over.hidden = false;
    }
    setTimeout(look, PAUSE);
  };

  const turn = (event) => {
    const way = { ArrowLeft: "prev", ArrowRight: "next" }[event.key];
    const plain = !event.altKey && !event.ctrlKey && !event.metaKey && !event.shiftKey;
    if (!way || !plain || event.target.closest?.('input, textarea, select, button, [tabindex="0"]')) return;
    const link = document.querySelector(`a[rel=${way}]`);
    if (link) {
      event.preventDefault();
      keep();
      location.assign(link.href);
    }
  };

  addEventListener("keydown", turn);
  if (frame) {
    const begin = () => {
      frame.contentWindow.addEventListener("keydown", turn);
      restore();
    };
    frame.addEventListener("load", begin);
    if (frame.contentDocument?.readyState === "complete" && frame.contentWindow.location.href !== "about:blank") begin();
  }
  setTimeout(look, PAUSE);
})();
