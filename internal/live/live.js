// Keeps an open page as the journal has it: when the server says that the page is
// another now, what differs is changed where it stands. What the reader did to the
// page (scrolled, opened, typed, sorted) stays.
"use strict";
(() => {
  // What the server sent last, as a tree of its own, and where each of its nodes
  // is on the page. Other scripts may move and change what is on the page; what
  // the server did not change is not touched.
  document.documentElement.normalize();
  const sent = document.documentElement.cloneNode(true);
  const onPage = new WeakMap();
  const pair = (ours, theirs) => {
    onPage.set(ours, theirs);
    for (let a = ours.firstChild, b = theirs.firstChild; a && b; a = a.nextSibling, b = b.nextSibling) pair(a, b);
  };
  pair(sent, document.documentElement);

  // Whoever keeps the book wants file, line and rule at hand, which visitors ask for.
  const whence = () => { for (const mark of document.querySelectorAll(".whence")) mark.open = true; };
  whence();
  document.addEventListener("gylebook:changed", whence);

  // update makes a node what the new one is, in the tree and on the page.
  const update = (old, now) => {
    const shown = onPage.get(old);
    if (old.nodeType !== Node.ELEMENT_NODE) {
      old.data = shown.data = now.data;
      return;
    }
    for (const { name } of [...old.attributes]) {
      if (!now.hasAttribute(name)) for (const node of [old, shown]) node.removeAttribute(name);
    }
    for (const { name, value } of now.attributes) {
      if (old.getAttribute(name) !== value) for (const node of [old, shown]) node.setAttribute(name, value);
    }
    children(old, shown, now);
  };

  const text = (node) => node.outerHTML ?? node.nodeName + node.data;
  const kind = (node) => node.nodeName + (node.id ? "#" + node.id : "");

  // partners finds, for each new node, the old one that it is: one just like it,
  // else the next of its kind.
  const partners = (olds, news) => {
    const found = new Map(), free = new Set(olds);
    for (const name of [text, kind]) {
      const by = Map.groupBy(free, name);
      for (const now of news) {
        const old = found.has(now) ? null : by.get(name(now))?.shift();
        if (old) {
          found.set(now, old);
          free.delete(old);
        }
      }
    }
    return { found, free };
  };

  const children = (old, shown, now) => {
    const olds = [...old.childNodes], news = [...now.childNodes];
    const like = (i, j) => i < olds.length && j < news.length && olds.at(i).isEqualNode(news.at(j));
    let start = 0;
    while (like(start, start)) start++;
    let end = 0;
    while (end < Math.min(olds.length, news.length) - start && olds.at(-1 - end).isEqualNode(news.at(-1 - end))) end++;
    const middle = news.slice(start, news.length - end);
    const { found, free } = partners(olds.slice(start, olds.length - end), middle);
    for (const gone of free) {
      onPage.get(gone).remove();
      gone.remove();
    }
    let next = end > 0 ? olds.at(-end) : null;
    for (const fresh of middle.reverse()) {
      let node = found.get(fresh);
      if (node === undefined) {
        node = document.importNode(fresh, true);
        pair(node, document.importNode(fresh, true));
      }
      if (node.parentNode !== old || node.nextSibling !== next) {
        old.insertBefore(node, next);
        const before = next && onPage.get(next);
        shown.insertBefore(onPage.get(node), before && before.parentNode === shown ? before : null);
      }
      if (!node.isEqualNode(fresh)) update(node, fresh);
      next = node;
    }
  };

  // inPlace makes a change and leaves what the reader looks at where it was. A page
  // that has become too short for that goes back there once it is long enough.
  let wanted = null;
  for (const moves of ["wheel", "touchmove", "keydown", "pointerdown"]) addEventListener(moves, () => { wanted = null; }, { passive: true });
  const inPlace = (change) => {
    const mark = scrollY > 0 ? document.elementFromPoint(innerWidth / 2, Math.min(120, innerHeight / 2)) : null;
    const top = mark?.getBoundingClientRect().top, was = wanted ?? scrollY, focused = document.activeElement;
    change();
    if (mark?.isConnected && wanted === null) scrollBy({ top: mark.getBoundingClientRect().top - top, behavior: "instant" });
    else if (was > 0) scrollTo({ top: was, behavior: "instant" });
    wanted = scrollY < was - 1 && document.documentElement.scrollHeight < was + innerHeight ? was : null;
    if (focused?.id && !focused.isConnected) document.getElementById(focused.id)?.focus({ preventScroll: true });
  };

  // A page that cannot be changed in place is loaded again, at its old place.
  const place = "gylebook-place:" + location.pathname;
  const kept = sessionStorage.getItem(place);
  if (kept !== null) {
    sessionStorage.removeItem(place);
    const back = () => scrollTo({ top: Number(kept), behavior: "instant" });
    back();
    addEventListener("load", back, { once: true });
  }
  const reload = () => {
    sessionStorage.setItem(place, String(scrollY));
    location.reload();
  };

  // The tags of the page as shown and of the styles and scripts that it has.
  const [loaded] = performance.getEntriesByType("navigation");
  let mine = loaded?.serverTiming?.find((t) => t.name === "page")?.description ?? null;
  let dress = null, asking = false, again = false;

  const ask = async () => {
    if (asking) {
      again = true;
      return;
    }
    asking = true;
    try {
      const answer = await fetch(location.pathname + location.search, { cache: "no-store" });
      const tag = answer.headers.get("ETag")?.replaceAll('"', "");
      const now = new DOMParser().parseFromString(await answer.text(), "text/html");
      if (tag) {
        inPlace(() => update(sent, now.documentElement));
        mine = tag;
        document.dispatchEvent(new CustomEvent("gylebook:changed"));
      }
    } catch (fault) {
      if (!(fault instanceof TypeError)) reload(); // else the network: the stream comes back and says again what is new
      mine = null;
    }
    asking = false;
    if (again) {
      again = false;
      ask();
    }
  };

  const heard = (news) => {
    const [page, clothes] = news.data.split(" ");
    if (dress !== null && dress !== clothes) return reload();
    dress = clothes;
    if (page !== mine) ask();
  };

  // Only the page in view listens: a browser holds few streams open at once, and
  // a page that comes back into view hears at once what it missed.
  let stream = null;
  const listen = () => {
    if (document.hidden) {
      stream?.close();
      stream = null;
    } else if (stream === null) {
      stream = new EventSource("/live-events?page=" + encodeURIComponent(location.pathname));
      stream.onmessage = heard;
    }
  };
  document.addEventListener("visibilitychange", listen);
  listen();
})();
