// Stands for the frame of the page, and for its screen for playing, which says what it is asked for.
practice.screens = [];
practice.chosen = { instrument: "concert", lines: {} };
practice.say = (row, filled = {}) => (practice.book.words[`practice.${row}`] ?? row)
  .replace(/\{(\w+)\}/g, (gap, name) => (name in filled ? String(filled[name]) : gap));
practice.element = (tag, attributes = {}, ...children) => {
  const found = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (name.startsWith("on")) found.addEventListener(name.slice(2), value);
    else if (value === true) found.setAttribute(name, "");
    else if (value !== false && value !== null && value !== undefined) found.setAttribute(name, value);
  }
  found.append(...children.flat().filter((child) => child !== null && child !== undefined && child !== ""));
  return found;
};
practice.tell = (text) => { document.getElementById("told").textContent = text; };
practice.instrument = () => practice.book.instruments.find((one) => one.slug === practice.chosen.instrument);
practice.writtenAbove = () => practice.instrument().shift;
practice.keyName = (one, place) => one.keys[place].written[practice.chosen.instrument];
let open = null;
practice.shown = () => open?.name ?? "";
practice.show = (name, request = {}) => {
  open?.closed?.();
  for (const section of document.querySelectorAll("main > .screen")) section.hidden = section.id !== `screen-${name}`;
  open = practice.screens.find((one) => one.name === name);
  open.opened?.(request);
};
const asked = { value: null };
practice.screens.push({
  name: "play", word: "practice.plan.play",
  element() {
    const { element } = practice;
    const round = () => practice.progress.played({ ...asked.value, rounds: 1 });
    return element("section", { id: "screen-play", class: "screen" }, element("h1", {}, "Play"), element("p", { id: "asked", style: "overflow-wrap: anywhere" }),
      element("button", { id: "round", onclick: round }, "round"), element("div", { id: "went" }));
  },
  opened(request) {
    if (request.phrase) asked.value = { phrase: request.phrase, key: request.key ?? "C", tempo: request.tempo ?? 90 };
    if (!asked.value) return;
    document.getElementById("asked").textContent = JSON.stringify(asked.value);
    practice.planScreen.howItWent(document.getElementById("went"), asked.value);
  },
});
