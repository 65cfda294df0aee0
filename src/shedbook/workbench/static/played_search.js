// Notes played into the search: each as a MIDI keyboard gives it, or all that the microphone heard at once.

import { canRecord, record } from "./microphone.js";
import { hearMidi } from "./midi.js";
import { plainName } from "./note_names.js";
import { $, call, send, told } from "./page.js";
import { counted, t } from "./words.js";

const PAUSE_MS = 3000;
const MOST_S = 30;

export function playedSearch(player) {
  const field = $("find-notes");
  const said = (text) => ($("find-said").textContent = text);
  const write = (text) => {
    field.value = text;
    field.dispatchEvent(new Event("input"));
  };
  keyboardSearch(player, field, said, write);
  microphoneSearch(player, field, said, write);
}

function keyboardSearch(player, field, said, write) {
  const button = $("find-midi");
  let end = null;
  let last = -Infinity;
  const hear = ({ on, midi, velocity, at }) => {
    if (!on) return;
    player.touch(midi, { velocity }); // a plain tone where no notes were loaded: the search must not wait for them
    write(at - last > PAUSE_MS ? plainName(midi) : `${field.value} ${plainName(midi)}`);
    last = at;
  };
  button.addEventListener("click", async () => {
    const was = end;
    end = null;
    if (was) {
      was();
      said("");
    } else {
      last = -Infinity;
      player.audio();
      end = await hearMidi(hear, (text, there) => said(there ? [text, t("find.anew")].join(" ") : text));
    }
    button.setAttribute("aria-pressed", String(Boolean(end)));
  });
  addEventListener("keydown", (event) => {
    if (event.key !== "Escape" || !end || (event.target !== field && event.target.closest?.("input, select"))) return;
    last = -Infinity;
    write("");
  });
}

function microphoneSearch(player, field, said, write) {
  const button = $("find-microphone");
  const clock = $("find-clock");
  let running = null;
  const show = (recording) => {
    button.textContent = t(recording ? "find.microphone-stop" : "find.microphone");
    button.setAttribute("aria-pressed", String(recording));
  };
  button.addEventListener("click", () => (running ? finish() : begin()));

  async function begin() {
    if (!canRecord()) return said(t("took.no-microphone"));
    player.stop();
    button.disabled = true;
    try {
      running = await record((seconds) => {
        clock.textContent = t("find.clock", { s: Math.floor(seconds), most: MOST_S });
        if (seconds >= MOST_S) finish();
      });
      said(t("find.recording"));
      show(true);
    } catch {
      said(t("took.refused"));
    } finally {
      button.disabled = false;
    }
  }

  async function finish() {
    const ending = running;
    if (!ending) return;
    running = null;
    clock.textContent = "";
    button.disabled = true;
    said(t("took.listening"));
    try {
      const wav = await ending.stop();
      if (!wav) return said(t("took.nothing"));
      const { recording } = await send("recording", new File([wav], "search.wav", { type: wav.type }));
      const { notes } = await call("heard_notes", { recording });
      write(notes.map((one) => plainName(one.midi)).join(" "));
      const unsure = notes.filter((one) => one.unsure).map((one) => plainName(one.midi));
      said([counted("find.heard", notes.length), unsure.length ? t("find.unsure", { names: unsure.join(", ") }) : ""].filter(Boolean).join(" "));
      field.focus();
    } catch (error) {
      said(error.error ? error.message : "");
      if (!error.error) told(error);
    } finally {
      button.disabled = false;
      show(false);
    }
  }
}
