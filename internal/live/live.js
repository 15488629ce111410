// Loads the page again when the journal is saved, and keeps its place.
(() => {
  const place = "gylebook-place:" + location.pathname;
  const kept = sessionStorage.getItem(place);
  if (kept !== null) {
    sessionStorage.removeItem(place);
    const back = () => scrollTo({ top: Number(kept), behavior: "instant" });
    back();
    addEventListener("load", back, { once: true });
  }

  // The edition that this page is of comes with it in a header.
  const [loaded] = performance.getEntriesByType("navigation");
  let mine = loaded?.serverTiming?.find((t) => t.name === "edition")?.description ?? null;
  let stream = null;
  const heard = (news) => {
    if (mine !== null && mine !== news.data) {
      sessionStorage.setItem(place, String(scrollY));
      location.reload();
    }
    mine = news.data;
  };
  // Only the page in view listens: a browser holds few streams open at once, and
  // a page that comes back into view hears at once what it missed.
  const listen = () => {
    if (document.hidden) {
      stream?.close();
      stream = null;
    } else if (stream === null) {
      stream = new EventSource("/live-events");
      stream.onmessage = heard;
    }
  };
  document.addEventListener("visibilitychange", listen);
  listen();
})();
