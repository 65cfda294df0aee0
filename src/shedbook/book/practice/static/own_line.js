// A line of the reader's own over the same changes: on a staff, kept, played back, each note told what it is.
(() => {
  "use strict";
  const practice = (window.practice = window.practice || {});
  const { element, say } = practice;

  const SHARE = 70;
  const LENGTHS = [0.5, 1, 1.5, 2, 3, 4];
  const LOWEST = 28;
  const HIGHEST = 103;
  /** A staff narrower than this is not there yet: a screen that is hidden has its edges alone. */
  const LEAST_PX = 100;

  let parts = null;
  let data = null;
  let over = null;
  let notes = [];
  let place = 0;
  let fitted = null;
  let clef = null;
  let length = 0.5;
  let staff = null;

  const named = () => `own ${practice.chosen.phrase}`;
  const slots = () => (over.bars * over.bar) / staff.SLOT_QUARTERS;
  const at = () => place * staff.SLOT_QUARTERS;
  const here = () => notes.findIndex(([start]) => Math.abs(start - at()) < 1e-6);

  async function open() {
    staff = practice.ownStaff;
    const asked = practice.chosen.phrase + practice.instrument().slug;
    data = await practice.phraseData();
    const kept = await practice.progress.store.get(named());
    if (practice.chosen.phrase + practice.instrument().slug !== asked) return;
    over = data.part.over;
    // What is kept sounds; what stands on the staff is written for the instrument in hand.
    notes = (Array.isArray(kept?.notes) ? kept.notes : []).map(([start, long, midi]) => [start, long, midi + over.shift]);
    place = 0;
    const found = /<use href="#(sE0(?:5|6)\w+)" x="\d+" y="(-?\d+)"/.exec(data.part.keys[0].layouts[0].svg);
    clef = found && { glyph: found[1], y: Number(found[2]) };
    parts.head.update();
    draw();
  }

  function keep() {
    practice.progress.store.set(named(), { notes: notes.map(([start, long, midi]) => [start, long, midi - over.shift]) });
  }

  function draw() {
    if (!over || parts.staff.clientWidth < LEAST_PX) return;
    fitted = staff.fit(over, parts.staff.clientWidth - 12);
    const { svg, box } = staff.draw(over, fitted, notes, place, clef);
    parts.staff.innerHTML = `<svg viewBox="${box.join(" ")}" width="${box[2] * fitted.scale}" height="${box[3] * fitted.scale}" fill="currentColor" aria-hidden="true">${svg}</svg>`;
    parts.staff.setAttribute("aria-label", say("own.staff", { bars: over.bars }));
    describe();
  }

  function describe() {
    const bar = Math.floor(at() / over.bar) + 1;
    const beat = practice.beatText((at() % over.bar) / over.beat + 1);
    const found = here();
    let text = say("own.empty", { bar, beat });
    if (found >= 0) {
      const one = staff.told(over, notes, found);
      const filled = {
        bar,
        beat,
        note: practice.sign(one.letter) + { "": "", b: "♭", "#": "♯" }[one.sign],
        degree: practice.sign(one.degree),
        chord: practice.sign(one.span.chord),
        kind: say(`own.kind.${one.kind}`),
        landing: one.landing ? say(`own.landing.${one.landing}`) : "",
      };
      text = say(one.degree ? "own.note" : "own.note.bare", filled);
    }
    parts.here.textContent = text;
    for (const name of ["longer", "shorter", "up", "down", "remove"]) parts[name].disabled = found < 0;
    parts.count.textContent = notes.length ? count() : "";
  }

  function count() {
    const all = notes.map((_, which) => staff.told(over, notes, which));
    const of = (kind) => all.filter((one) => one.kind === kind).length;
    const landings = all.filter((one) => one.landing);
    return say("own.count", {
      n: all.length,
      chord: of("chord"),
      scale: of("scale"),
      outside: of("outside"),
      landed: landings.filter((one) => one.landing === "still").length,
      landings: landings.length,
    });
  }

  // Changes. No note sounds into the next one.

  function put(start, midi) {
    const inside = Math.min(HIGHEST, Math.max(LOWEST, midi));
    notes = notes.filter(([other]) => Math.abs(other - start) > 1e-6);
    notes.push([start, length, inside]);
    tidy();
    touch(inside);
  }

  function tidy() {
    notes.sort((one, other) => one[0] - other[0]);
    const end = over.bars * over.bar;
    notes = notes.map(([start, long, midi], which) => {
      const room = (notes[which + 1]?.[0] ?? end) - start;
      return [start, Math.max(...LENGTHS.filter((one) => one <= Math.min(long, room)), staff.SLOT_QUARTERS), midi];
    });
    keep();
    draw();
  }

  function touch(midi) {
    practice.sound.notes(practice.sound.lineInstrument(data.played), [[midi - over.shift, 0, 0.5]]);
  }

  /** Move the note at the place by steps of the staff, or by half steps. */
  function move(by, half) {
    const found = here();
    if (found < 0) return;
    const [start, , midi] = notes[found];
    const next = half ? midi + by : staff.midiAt(over, start, staff.named(over, start, midi).step + by);
    if (next < LOWEST || next > HIGHEST) return;
    notes[found][2] = next;
    tidy();
    touch(next);
  }

  function stretch(by) {
    const found = here();
    if (found < 0) return;
    const now = LENGTHS.indexOf(notes[found][1]);
    length = LENGTHS[Math.min(LENGTHS.length - 1, Math.max(0, now + by))];
    notes[found][1] = length;
    tidy();
  }

  function remove() {
    notes = notes.filter((_, which) => which !== here());
    keep();
    draw();
  }

  function go(by) {
    place = Math.min(slots() - 1, Math.max(0, place + by));
    draw();
  }

  function setHere() {
    const before = notes.filter(([start]) => start < at()).pop() ?? notes[0];
    const step = before ? staff.named(over, before[0], before[2]).step : staff.LOWEST_LINE[over.clef] + 4;
    put(at(), staff.midiAt(over, at(), step));
  }

  function pressed(event) {
    const svg = parts.staff.querySelector("svg");
    const box = svg.getBoundingClientRect();
    const [left, top, width, height] = svg.getAttribute("viewBox").split(" ").map(Number);
    const x = left + ((event.clientX - box.left) / box.width) * width;
    const y = top + ((event.clientY - box.top) / box.height) * height;
    const { slot, step } = staff.under(over, fitted, x, y);
    place = slot;
    const found = here();
    if (found >= 0 && Math.abs(staff.named(over, at(), notes[found][2]).step - step) <= 1) {
      draw();
      touch(notes[found][2]);
    } else put(at(), staff.midiAt(over, at(), step));
  }

  const KEYS = {
    ArrowLeft: () => go(-1),
    ArrowRight: () => go(1),
    ArrowUp: (event) => (here() < 0 ? setHere() : move(1, event.shiftKey)),
    ArrowDown: (event) => (here() < 0 ? setHere() : move(-1, event.shiftKey)),
    Enter: () => (here() < 0 ? setHere() : go(1)),
    Delete: remove,
    Backspace: remove,
    "+": () => stretch(1),
    "-": () => stretch(-1),
    " ": () => hear(),
  };

  function keyed(event) {
    if (event.ctrlKey || event.altKey || event.metaKey || !KEYS[event.key]) return;
    event.preventDefault();
    KEYS[event.key](event);
  }

  // Hearing.

  function hear() {
    if (parts.hear.getAttribute("aria-pressed") === "true") return practice.sound.stop();
    if (!notes.length) return undefined;
    const home = Math.max(0, data.part.keys.findIndex((one) => one.key === data.part.home));
    const told = {
      onStruck: mark,
      onState: (playing) => parts.hear.setAttribute("aria-pressed", String(playing)),
    };
    const band = parts.band.checked;
    return practice.sound.play({
      played: data.played,
      key: home,
      share: SHARE,
      heard: { line: true, bass: band, comping: band, drums: band, click: false },
      count: band,
      times: 1,
      own: notes.map(([start, long, midi]) => [midi - over.shift, start, long]),
      told,
    });
  }

  function mark(which) {
    for (const one of parts.staff.querySelectorAll("[data-note]")) one.classList.toggle("now", Number(one.dataset.note) === which);
  }

  function clear() {
    if (!notes.length || !confirm(say("own.clear.sure"))) return;
    notes = [];
    keep();
    draw();
  }

  // What the screen is made of.

  function build() {
    const button = (row, act) => element("button", { onclick: act }, say(row));
    parts = {
      head: practice.head(open, { keys: false }),
      staff: element("div", { class: "paper own-staff", tabindex: 0, role: "application", "aria-describedby": "own-says own-here", onkeydown: keyed, onpointerdown: pressed }),
      here: element("p", { id: "own-here", role: "status" }),
      count: element("p", { class: "quiet" }),
      hear: element("button", { class: "main", "aria-pressed": "false", onclick: hear }, say("own.hear")),
      band: element("input", { type: "checkbox" }),
      up: button("own.up", () => move(1, false)),
      down: button("own.down", () => move(-1, false)),
      longer: button("own.longer", () => stretch(1)),
      shorter: button("own.shorter", () => stretch(-1)),
      remove: button("own.remove", remove),
    };
    new ResizeObserver(draw).observe(parts.staff);
    return element(
      "section",
      {},
      element("h1", { class: "unseen" }, say("screen.own")),
      parts.head,
      element("p", { class: "quiet", id: "own-says" }, say("own.says")),
      parts.staff,
      parts.here,
      element("div", { class: "row" }, parts.up, parts.down, parts.shorter, parts.longer, parts.remove),
      element("div", { class: "row hearing" }, parts.hear, element("label", { class: "check" }, parts.band, say("own.band")), button("own.clear", clear)),
      parts.count,
      element("p", { class: "quiet" }, say("own.kept")),
    );
  }

  /** A beat as players say it: 2.5 is "2½", a triplet's second note "2⅓". */
  practice.beatText = (beat) => {
    const whole = Math.floor(beat + 1e-6);
    const rest = beat - whole;
    return `${whole}${{ 0: "", 5: "½", 3: "⅓", 7: "⅔" }[Math.round(rest * 10)] ?? ""}`;
  };

  practice.screens.push({
    name: "own",
    word: "practice.screen.own",
    element: build,
    opened: () => {
      practice.opening = open();
    },
    closed: () => practice.sound.stop(),
  });
})();
