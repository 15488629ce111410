// What the book does with a script: sort, filter, search, count down. Without
// one every page still says all that it has to say.
"use strict";
(() => {
  // What the part after # holds, as in #stage=working&sort=abv.
  const read = () => new URLSearchParams(location.hash.slice(1));
  const write = (values) => {
    const text = values.toString();
    history.replaceState(null, "", text === "" ? location.pathname + location.search : "#" + text);
  };

  // A working that a link leads to is opened.
  const open = () => {
    let at = null;
    try { at = document.getElementById(decodeURIComponent(location.hash.slice(1))); } catch { return; }
    for (let d = at && at.closest("details"); d; d = d.parentElement.closest("details")) d.open = true;
    if (at && at.closest("details")) at.scrollIntoView();
  };
  addEventListener("hashchange", open);
  open();

  // A box that scrolls sideways can be reached with the keyboard.
  for (const box of document.querySelectorAll(".scroll")) {
    if (box.scrollWidth > box.clientWidth) {
      box.tabIndex = 0;
      box.setAttribute("role", "group");
      if (!box.hasAttribute("aria-label")) box.setAttribute("aria-label", "Table");
    }
  }

  const form = document.querySelector("[data-filter]");
  if (form) list(form, document.getElementById(form.dataset.filter));

  function list(form, table) {
    let rows = [...table.tBodies[0].rows];
    const heads = [...table.tHead.rows[0].cells];
    const column = (key) => heads.findIndex((h) => h.dataset.key === key);
    const value = (row, i) => row.cells[i].dataset.sort ?? row.cells[i].textContent.trim();
    const collator = new Intl.Collator(document.documentElement.lang || undefined, { numeric: true, sensitivity: "base" });
    const compare = (i) => (a, b) => {
      const x = value(a, i), y = value(b, i);
      if (x === "" || y === "") return x === y ? 0 : x === "" ? 2 : -2;
      const m = Number(x), n = Number(y);
      return Number.isNaN(m) || Number.isNaN(n) ? collator.compare(x, y) : m - n;
    };
    const show = () => {
      const want = read();
      const words = (want.get("words") || "").toLowerCase().split(/\s+/).filter(Boolean);
      let count = 0;
      for (const row of rows) {
        const text = row.textContent.toLowerCase();
        const fits = words.every((w) => text.includes(w)) &&
          (!want.get("stage") || value(row, column("stage")) === want.get("stage")) &&
          (!want.get("yeast") || (row.dataset.yeast || "").split("|").includes(want.get("yeast"))) &&
          (!want.get("style") || value(row, column("style")) === want.get("style")) &&
          (!want.get("year") || value(row, column("brewed")).startsWith(want.get("year")));
        row.hidden = !fits;
        if (fits) count++;
      }
      const [, down, key] = /^(-?)(.*)$/.exec(want.get("sort") || "");
      const at = column(key);
      let order = rows;
      if (at >= 0) {
        const by = compare(at);
        order = [...rows].sort((a, b) => { const c = by(a, b); return Math.abs(c) === 2 ? c : down ? -c : c; });
      }
      table.tBodies[0].append(...order);
      heads.forEach((h, i) => i === at ? h.setAttribute("aria-sort", down ? "descending" : "ascending") : h.removeAttribute("aria-sort"));
      for (const field of form.elements) if (field.name && field.value !== (want.get(field.name) || "")) field.value = want.get(field.name) || "";
      form.querySelector("output").textContent = count === rows.length ? "" : count + " of " + rows.length;
    };
    for (const h of heads) {
      const button = document.createElement("button");
      button.type = "button";
      button.append(...h.childNodes);
      h.append(button);
      button.addEventListener("click", () => {
        const want = read();
        want.set("sort", want.get("sort") === h.dataset.key ? "-" + h.dataset.key : h.dataset.key);
        write(want);
        show();
      });
    }
    form.addEventListener("input", (event) => {
      const want = read(), { name, value } = event.target;
      if (value) want.set(name, value); else want.delete(name);
      write(want);
      show();
    });
    form.addEventListener("submit", (event) => event.preventDefault());
    addEventListener("hashchange", show);
    document.addEventListener("gylebook:changed", () => { rows = [...table.tBodies[0].rows]; show(); });
    form.hidden = false;
    show();
  }

  const search = document.querySelector("[data-search]");
  if (search) find(search, document.getElementById("found"));

  function find(form, list) {
    const known = (all) => all.map((p) => ({ ...p, name: p.title.toLowerCase() }));
    let pages = known(self.gylebookPages || []);
    const field = form.elements.q, said = form.querySelector("output"), none = document.getElementById("none");
    const score = (page, words) => {
      let sum = 0;
      for (const w of words) {
        const n = page.name === w ? 8 : page.name.startsWith(w) ? 5 : page.name.includes(w) ? 4 : page.kind === w ? 3 : (" " + page.words).includes(" " + w) ? 2 : page.words.includes(w) ? 1 : 0;
        if (n === 0) return 0;
        sum += n;
      }
      return sum;
    };
    const show = () => {
      const words = field.value.toLowerCase().split(/\s+/).filter(Boolean);
      list.replaceChildren();
      said.textContent = "";
      if (none) none.hidden = true;
      if (words.length === 0) return;
      const hits = pages.map((page) => ({ page, n: score(page, words) })).filter((h) => h.n > 0).sort((a, b) => b.n - a.n);
      if (none) none.hidden = hits.length > 0;
      said.textContent = hits.length === 0 ? "Nothing found for “" + field.value.trim() + "”." : hits.length === 1 ? "One page." : hits.length + " pages.";
      for (const { page } of hits.slice(0, 50)) {
        const item = document.createElement("li"), kind = document.createElement("span"), link = document.createElement("a");
        kind.className = "when";
        kind.textContent = page.kind;
        link.href = form.dataset.root + page.url;
        link.textContent = page.title;
        item.append(kind, " ", link);
        list.append(item);
      }
    };
    const fill = () => { field.value = read().get("q") || new URLSearchParams(location.search).get("q") || ""; show(); };
    field.addEventListener("input", () => {
      const want = read();
      if (field.value) want.set("q", field.value); else want.delete("q");
      write(want);
      show();
    });
    // Enter opens the first page found; the arrows go through them all.
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      list.querySelector("a")?.click();
    });
    addEventListener("keydown", (event) => {
      const links = [...list.querySelectorAll("a")], at = links.indexOf(document.activeElement);
      if (at < 0 && document.activeElement !== field) return;
      const to = event.key === "ArrowDown" ? at + 1 : event.key === "ArrowUp" ? at - 1 : -2;
      if (to === -2 || to >= links.length) return;
      event.preventDefault();
      (links[to] || field).focus();
    });
    addEventListener("hashchange", fill);
    // A page changed in place asks for what there is to find now.
    document.addEventListener("gylebook:changed", async () => {
      try {
        pages = known(await (await fetch(form.dataset.root + "search.json", { cache: "no-store" })).json());
      } catch { return; /* the next change asks again */ }
      const at = list.contains(document.activeElement) ? document.activeElement.href : null;
      show();
      if (at) ([...list.querySelectorAll("a")].find((a) => a.href === at) || field).focus();
    });
    form.hidden = false;
    fill();
  }

  // Brew day by the clock. Its state is in the page and in this browser's store,
  // and nothing is kept of the elements: a page that is changed in place goes on.
  const key = "gylebook-boil:" + location.pathname;
  const load = () => { try { return Number(localStorage.getItem(key)); } catch { return boil; } };
  let boil = 0, audio = null, last = Date.now();
  document.addEventListener("click", (event) => {
    if (!event.target.closest("[data-clock] button")) return;
    boil = Date.now();
    try { localStorage.setItem(key, boil); } catch { /* a private window */ }
    tick();
  });
  document.addEventListener("change", (event) => { if (event.target.matches("[data-clock] input:checked")) sound(); });
  const sound = () => {
    audio ||= new AudioContext();
    for (const n of [0, 0.4, 0.8]) {
      const tone = audio.createOscillator();
      tone.connect(audio.destination);
      tone.start(audio.currentTime + n);
      tone.stop(audio.currentTime + n + 0.2);
    }
  };
  const tick = () => {
    const now = Date.now();
    for (const clock of document.querySelectorAll("[data-clock]")) count(clock, now);
    last = now;
  };
  setInterval(tick, 1000);
  document.addEventListener("gylebook:changed", tick);
  tick();

  function count(clock, now) {
    const items = [...clock.querySelectorAll("li")];
    const long = Number(clock.dataset.length), begun = clock.dataset.length && now - load() < 6 * 3600e3 ? load() : 0;
    const at = (li) => li.dataset.at ? Date.parse(li.dataset.at) : begun && li.dataset.minutes ? begun + (long - li.dataset.minutes) * 6e4 : NaN;
    const times = items.map(at), end = Math.max(...times.filter((t) => t > 0));
    const over = end < now - 12 * 3600e3;
    clock.querySelector(".clock").hidden = over;
    const next = over ? -1 : times.reduce((best, t, i) => t >= now - 30e3 && !(t >= times[best]) ? i : best, -1);
    items.forEach((li, i) => {
      const left = Math.ceil((times[i] - now) / 6e4);
      li.classList.toggle("next", i === next);
      li.classList.toggle("past", times[i] < now - 30e3);
      li.querySelector(".left").textContent = left > 0 && left < 600 ? " in " + left + " min" : "";
      if (times[i] > last && times[i] <= now && clock.querySelector("input").checked) sound();
    });
    const left = next < 0 ? 0 : Math.ceil((times[next] - now) / 6e4);
    const text = next >= 0 ? (left > 0 ? "Next in " + left + " min" : "Now") : end > 0 ? "Nothing more is due" : "";
    const said = clock.querySelector("output"), button = clock.querySelector("button");
    if (said.textContent !== text) said.textContent = text;
    if (button && begun) button.textContent = "Begin again";
  }
})();
