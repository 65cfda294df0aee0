// Names of notes where no chord says how to spell them.

export const PLAIN = ["c", "db", "d", "eb", "e", "f", "gb", "g", "ab", "a", "bb", "b"];
const CLASSES = { c: 0, d: 2, e: 4, f: 5, g: 7, a: 9, b: 11 };
const SIGNS = { "#": 1, "♯": 1, "##": 2, b: -1, "♭": -1, bb: -2 };

/** A note with its octave, such as eb4. */
export const plainName = (midi) => `${PLAIN[midi % 12]}${Math.floor(midi / 12) - 1}`;

/** The notes of a text such as "c d eb g" as MIDI numbers, one without an octave the nearest; null if one cannot be read. */
export function readNotes(text) {
  const notes = [];
  for (const name of text.trim().split(/[\s,]+/).filter(Boolean)) {
    const found = name.match(/^([a-g])(##|bb|[#b♯♭])?(-?\d)?$/i);
    if (!found) return null;
    const own = CLASSES[found[1].toLowerCase()] + (SIGNS[found[2]?.toLowerCase()] ?? 0);
    const before = notes.at(-1) ?? 60 + own;
    notes.push(found[3] === undefined ? before + ((((own - before) % 12) + 18) % 12) - 6 : own + 12 * (Number(found[3]) + 1));
  }
  return notes;
}
