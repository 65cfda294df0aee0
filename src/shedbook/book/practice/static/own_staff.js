// A staff for a line of the reader's own: pure drawing, from notes and the tables that the build ships to an SVG.
//
// A note is [start, length, midi]: quarters from bar 1, and what is written. Places are eighths.
(() => {
  "use strict";
  const practice = (window.practice = window.practice || {});

  const SPACE = 180;
  const STAFF = 4 * SPACE;
  const SLOT = 480;
  const CLEF_ROOM = 760;
  const BAR_GAP = 260;
  const PITCH = 2750;
  const ROOF = 1050;
  const FOOT = 1150;
  const STEM = 3.4 * SPACE;
  const HEAD = 212;
  const LETTERS = "CDEFGAB";
  const CLASSES = { C: 0, D: 2, E: 4, F: 5, G: 7, A: 9, B: 11 };
  const ACCIDENTALS = { "": 0, b: -1, "#": 1 };
  // The diatonic step, from C0 on, of the lowest line of the staff by clef.
  const LOWEST_LINE = { G2: 30, "G2-8": 30, F4: 18, "F4-8": 18, C3: 24, C4: 22 };
  const GLYPHS = { head: "sE0A4", half: "sE0A3", whole: "sE0A2", up: "sE240", down: "sE241", b: "sE260", "": "sE261", "#": "sE262" };

  const SLOT_QUARTERS = 0.5;

  /** The span of chord and scale at a place in quarters. */
  const spanAt = (over, start) => over.spans.find((one) => start >= one.start && start < one.end) ?? over.spans[over.spans.length - 1];

  /** What a note is called over its chord: letter with accidental, and its diatonic step from C0. */
  function named(over, start, midi) {
    const name = spanAt(over, start).names[((midi % 12) + 12) % 12];
    const sign = name.slice(1);
    const octave = Math.round((midi - ACCIDENTALS[sign] - CLASSES[name[0]]) / 12) - 1;
    return { name, letter: name[0], sign, octave, step: LETTERS.indexOf(name[0]) + 7 * octave };
  }

  /** The note that stands for a step of the staff over a chord: a chord tone before a scale tone before a plain one. */
  function midiAt(over, start, step) {
    const letter = LETTERS[((step % 7) + 7) % 7];
    const octave = Math.floor(step / 7);
    const span = spanAt(over, start);
    const worth = { chord: 2, scale: 1, outside: 0 };
    const ways = span.names
      .map((name, number) => ({ name, number }))
      .filter(({ name }) => name[0] === letter)
      .sort((one, other) => worth[span.tones[other.number]] - worth[span.tones[one.number]] || one.name.length - other.name.length);
    const sign = ways.length ? ways[0].name.slice(1) : "";
    return 12 * (octave + 1) + CLASSES[letter] + ACCIDENTALS[sign];
  }

  /** What a note is: degree, chord tone or not, and how it lands; a landing is a strong beat or a chord's first note. */
  function told(over, notes, place) {
    const [start, , midi] = notes[place];
    const span = spanAt(over, start);
    const number = ((midi % 12) + 12) % 12;
    const kind = span.tones[number];
    const strong = over.strong.some((beat) => Math.abs((start % over.bar) - beat) < 1e-6);
    const before = notes[place - 1];
    const first = !before || spanAt(over, before[0]) !== span;
    const landing = strong || first ? { chord: "still", scale: "colour", outside: "outside" }[kind] : "";
    return { span, degree: span.degrees[number] ?? "", kind, landing, ...named(over, start, midi) };
  }

  /** How many bars stand in a line of so many pixels, and what a drawing unit is then. */
  function fit(over, width) {
    const slots = over.bar / SLOT_QUARTERS;
    const scale = 40 / STAFF;
    const bars = Math.max(1, Math.min(over.bars, 4, Math.floor((width / scale - CLEF_ROOM) / (slots * SLOT + BAR_GAP))));
    const units = CLEF_ROOM + bars * (slots * SLOT + BAR_GAP);
    return { bars, slots, units, scale: Math.min(width / units, 60 / STAFF) };
  }

  /** Where a place stands: its line, and its abscissa. */
  function where(fitted, slot) {
    const bar = Math.floor(slot / fitted.slots);
    const line = Math.floor(bar / fitted.bars);
    const inLine = bar - line * fitted.bars;
    const x = CLEF_ROOM + inLine * (fitted.slots * SLOT + BAR_GAP) + BAR_GAP / 2 + (slot % fitted.slots) * SLOT;
    return { bar, line, x };
  }

  /** The place and the step under a point in drawing units. */
  function under(over, fitted, x, y) {
    const line = Math.max(0, Math.floor((y + ROOF) / PITCH));
    const inLine = Math.min(fitted.bars - 1, Math.max(0, Math.floor((x - CLEF_ROOM) / (fitted.slots * SLOT + BAR_GAP))));
    const from = CLEF_ROOM + inLine * (fitted.slots * SLOT + BAR_GAP) + BAR_GAP / 2;
    const inBar = Math.min(fitted.slots - 1, Math.max(0, Math.floor((x - from) / SLOT)));
    const slot = (line * fitted.bars + inLine) * fitted.slots + inBar;
    const step = LOWEST_LINE[over.clef] + Math.round((line * PITCH + STAFF - y) / (SPACE / 2));
    return { slot: Math.min(slot, over.bars * fitted.slots - 1), step };
  }

  const use = (glyph, x, y, more = "") => `<use href="#${glyph}" x="${x}" y="${y}"${more}/>`;
  const hasGlyph = (glyph) => document.getElementById(glyph) !== null;

  function head(glyph, x, y) {
    if (hasGlyph(glyph)) return use(glyph, x, y);
    const open = glyph !== GLYPHS.head;
    return `<ellipse cx="${x + HEAD / 2}" cy="${y}" rx="${HEAD / 2}" ry="80" transform="rotate(-18 ${x + HEAD / 2} ${y})"${open ? ' fill="none" stroke="currentColor" stroke-width="36"' : ""}/>`;
  }

  function noteSvg(over, fitted, notes, place) {
    const [start, length] = notes[place];
    const { line, x } = where(fitted, Math.round(start / SLOT_QUARTERS));
    const one = told(over, notes, place);
    const top = line * PITCH;
    const y = top + STAFF - ((one.step - LOWEST_LINE[over.clef]) * SPACE) / 2;
    const slots = Math.round(length / SLOT_QUARTERS);
    const parts = [head(slots >= 8 ? GLYPHS.whole : slots >= 4 ? GLYPHS.half : GLYPHS.head, x + 90, y)];
    for (let ledger = top - SPACE; ledger >= y - 1; ledger -= SPACE) parts.push(`<path class="line" d="M${x + 30} ${ledger}h340"/>`);
    for (let ledger = top + STAFF + SPACE; ledger <= y + 1; ledger += SPACE) parts.push(`<path class="line" d="M${x + 30} ${ledger}h340"/>`);
    const up = y > top + STAFF / 2;
    if (slots < 8) {
      const at = up ? x + 90 + HEAD - 9 : x + 99;
      parts.push(`<path class="stem" d="M${at} ${y}v${up ? -STEM : STEM}"/>`);
      if (slots === 1) parts.push(use(up ? GLYPHS.up : GLYPHS.down, at - (up ? 9 : 9), y + (up ? -STEM : STEM)));
    }
    if (slots === 3 || slots === 6) parts.push(`<circle cx="${x + 90 + HEAD + 110}" cy="${y - (y % SPACE === 0 ? SPACE / 2 : 0)}" r="36"/>`);
    if (needsSign(over, fitted, notes, place, one)) parts.push(use(GLYPHS[one.sign], x - 110, y));
    parts.push(`<text class="degree" x="${x + 90 + HEAD / 2}" y="${top + STAFF + 640}" text-anchor="middle">${practice.sign(one.degree)}</text>`);
    if (one.landing) parts.push(`<circle class="landing ${one.landing}" cx="${x + 90 + HEAD / 2}" cy="${top + STAFF + 790}" r="52"/>`);
    return `<g class="${one.kind}" data-note="${place}">${parts.join("")}</g>`;
  }

  /** An accidental stands where the staff would say another pitch: it holds for its bar. */
  function needsSign(over, fitted, notes, place, one) {
    const bar = Math.floor(notes[place][0] / over.bar);
    let held = "";
    for (let before = 0; before < place; before += 1) {
      if (Math.floor(notes[before][0] / over.bar) !== bar) continue;
      const other = named(over, notes[before][0], notes[before][2]);
      if (other.step === one.step) held = other.sign;
    }
    return held !== one.sign;
  }

  /** The staves with their chords, the chosen place and the notes, as SVG. `clef` is a glyph with its ordinate. */
  function draw(over, fitted, notes, chosen, clef) {
    const lines = Math.ceil(over.bars / fitted.bars);
    const parts = [];
    const { line, x } = where(fitted, chosen);
    parts.push(`<rect class="place" x="${x - 20}" y="${line * PITCH - 420}" width="${SLOT}" height="${STAFF + 780}" rx="60"/>`);
    for (let at = 0; at < lines; at += 1) {
      const top = at * PITCH;
      const bars = Math.min(fitted.bars, over.bars - at * fitted.bars);
      const right = CLEF_ROOM + bars * (fitted.slots * SLOT + BAR_GAP);
      for (let row = 0; row < 5; row += 1) parts.push(`<path class="line" d="M0 ${top + row * SPACE}H${right}"/>`);
      for (let bar = 1; bar <= bars; bar += 1) parts.push(`<path class="line" d="M${CLEF_ROOM + bar * (fitted.slots * SLOT + BAR_GAP)} ${top}v${STAFF}"/>`);
      if (clef) parts.push(use(clef.glyph, 90, top + clef.y));
    }
    for (const span of over.spans) {
      const place = where(fitted, Math.round(span.start / SLOT_QUARTERS));
      parts.push(`<text class="chord" x="${place.x}" y="${place.line * PITCH - 520}">${practice.sign(span.chord).replace(/&/g, "&amp;")}</text>`);
    }
    parts.push(...notes.map((_, place) => noteSvg(over, fitted, notes, place)));
    const height = ROOF + (lines - 1) * PITCH + STAFF + FOOT;
    return { svg: parts.join(""), box: [-60, -ROOF, fitted.units + 120, height], slot: SLOT, pitch: PITCH };
  }

  practice.ownStaff = { fit, under, draw, told, named, midiAt, spanAt, where, SLOT_QUARTERS, LOWEST_LINE };
})();
