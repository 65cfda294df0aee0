// The words of the screens; a name without a row is a fault and is said as one.

const rows = JSON.parse(document.getElementById("words").textContent);

export function t(name, inside = {}) {
  const row = rows[name];
  if (row === undefined) throw new Error(`no word "${name}"`);
  return row.replace(/\{(\w+)\}/g, (whole, key) => (key in inside ? String(inside[key]) : whole));
}

export function counted(name, number, inside = {}) {
  return t(number === 1 ? `${name}.one` : `${name}.many`, { n: number, ...inside });
}

/** A text with signs in place of the letters of accidentals in names such as Bb and F#. */
export const signs = (text) =>
  text.replace(/(?<![A-Za-z])([A-G])(bb|b|##|#)(?![a-z])/g, (_, letter, sign) => letter + sign.replaceAll("b", "♭").replaceAll("#", "♯"));

/** A degree such as b9 with its sign. */
export const degreeSigns = (text) => text.replaceAll("b", "♭").replaceAll("#", "♯");

/** A chord symbol with the signs of its root, its bass and its degrees. */
export const chordSigns = (text) => text.replace(/(^|\/)([A-G])(bb|b|##|#)/g, (_, edge, letter, sign) => `${edge}${letter}${degreeSigns(sign)}`).replace(/[b#](?=\d)/g, degreeSigns);
