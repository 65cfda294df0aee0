// A keyboard by Web MIDI, for every screen that hears one.

import { t } from "./words.js";

/**
 * Hear every MIDI keyboard that is there or is plugged in later. `hear({ on, midi, velocity, at })` gets each key
 * that is pressed or let go, `said` in words who is heard. Returns what ends it; null where the browser gives none.
 */
export async function hearMidi(hear, said) {
  if (!navigator.requestMIDIAccess) {
    said(t("midi.none"));
    return null;
  }
  let access;
  try {
    access = await navigator.requestMIDIAccess();
  } catch {
    said(t("midi.refused"));
    return null;
  }
  const take = ({ data: [status, midi, velocity], timeStamp }) => {
    const kind = status & 0xf0;
    if (kind === 0x90 || kind === 0x80) hear({ on: kind === 0x90 && velocity > 0, midi, velocity, at: timeStamp });
  };
  const listen = () => {
    const names = [];
    for (const input of access.inputs.values()) {
      input.onmidimessage = take;
      names.push(input.name ?? "");
    }
    said(names.length ? t("midi.hears", { names: names.join(", ") }) : t("midi.nothing"), names.length > 0);
  };
  access.onstatechange = listen;
  listen();
  return () => {
    access.onstatechange = null;
    for (const input of access.inputs.values()) input.onmidimessage = null;
  };
}
