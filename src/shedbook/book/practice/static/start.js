// What happens when every script is there: what was kept is read, the first screen opens, the page learns to work offline.
(() => {
  "use strict";
  const practice = window.practice;

  async function start() {
    for (const wanted of ["DecompressionStream", "AudioContext", "ResizeObserver"]) {
      if (!window[wanted]) throw new Error(practice.say("old", { what: wanted }));
    }
    const kept = await practice.progress.store.get("settings").catch(() => null);
    if (kept) Object.assign(practice.chosen, kept, { heard: { ...practice.chosen.heard, ...kept.heard } });
    const chosen = practice.chosen;
    if (!practice.book.instruments.some((one) => one.slug === chosen.instrument)) chosen.instrument = "";
    if (!practice.phrase(chosen.phrase)) chosen.phrase = practice.book.phrases[0].id;
    if (chosen.theme) document.documentElement.dataset.theme = chosen.theme;
    const glyphs = await practice.load("glyphs", { keep: true });
    document.querySelector("#glyphs defs").innerHTML = Object.values(glyphs).join("");
    practice.build();
    const asked = location.hash.slice(1);
    practice.show(practice.screens.some((one) => one.name === asked) ? asked : practice.screens[0].name);
    practice.started = performance.now();
  }

  start().catch((error) => {
    document.getElementById("main").append(practice.element("p", { class: "wrong", role: "alert" }, String(error.message)));
  });

  if ("serviceWorker" in navigator && location.protocol.startsWith("http")) {
    navigator.serviceWorker.register("worker.js").catch(() => {});
  }
})();
