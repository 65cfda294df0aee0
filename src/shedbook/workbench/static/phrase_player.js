// The player under a phrase: the line at once, the band in a moment, any tempo, any place, round and round.

import { $, Refused, call, make, sound, told } from "./page.js";
import { fieldsNow, onSeen, paintChosen, state } from "./phrase.js";
import { Player } from "./player.js";
import { t } from "./words.js";

export function practicePlayer() {
  const place = $("player");
  const line = make("button", { type: "button", className: "main", id: "hear-line", textContent: t("player.line") });
  const band = make("button", { type: "button", id: "hear-band", textContent: t("player.band") });
  const stop = make("button", { type: "button", id: "hear-stop", textContent: t("player.stop"), disabled: true });
  const loop = make("input", { type: "checkbox", id: "loop" });
  const from = make("select", { id: "from-bar" });
  const to = make("select", { id: "to-bar" });
  const tempo = make("input", { type: "range", id: "speed", min: "40", max: "140", step: "5", value: "100" });
  const shown = make("output", { htmlFor: "speed" });
  const more = make("button", { type: "button", id: "player-more", textContent: t("player.more"), "aria-expanded": "false", "aria-controls": "player-choices" });
  const said = make("p", { id: "player-said", className: "quiet", role: "status" });
  place.append(
    make("div", { className: "row" }, line, band, stop, more),
    make(
      "div",
      { className: "more", id: "player-choices" },
      make("div", { className: "row" }, make("label", {}, t("player.from"), " ", from), make("label", {}, t("player.to"), " ", to), make("label", { className: "check" }, loop, " ", t("player.loop"))),
      make("label", { className: "row tempo" }, t("player.tempo"), " ", tempo, shown),
    ),
    said,
  );
  more.addEventListener("click", () => more.setAttribute("aria-expanded", String($("player-choices").classList.toggle("open"))));
  const player = new Player({
    onState: (now) => {
      stop.disabled = now === "silent";
      place.dataset.state = now;
      said.textContent = now === "silent" ? "" : t(`player.now.${now}`);
    },
    onNote: (note) => paintChosen("sounding", note),
  });
  let times = null;
  let timesOf = "";
  const ownTempo = () => Number(fieldsNow().tempo ?? $("tempo").placeholder ?? 120) || 120;
  const asked = () => Math.round((ownTempo() * Number(tempo.value)) / 100);
  const showTempo = () => (shown.textContent = t("player.bpm", { n: asked() }));
  tempo.addEventListener("input", showTempo);

  let soon = 0;
  const prepare = async () => {
    const fields = structuredClone(state.fields);
    const key = JSON.stringify([fields, asked()]);
    if (key === timesOf) return times;
    times = await call("times", { fields, tempo: asked() });
    timesOf = key;
    return times;
  };

  onSeen((seen) => {
    const bars = Array.from({ length: seen.bars }, (_, bar) => String(bar + 1));
    if (from.options.length !== bars.length) {
      from.replaceChildren(...bars.map((bar) => make("option", { value: bar, textContent: bar })));
      to.replaceChildren(...bars.map((bar) => make("option", { value: bar, textContent: bar })));
      to.value = bars.at(-1);
    }
    showTempo();
    clearTimeout(soon); // when the author pauses, so that the line is ready before it is asked for
    soon = setTimeout(() => prepare().catch(() => {}), 250);
  });

  const range = (bars, notes) => {
    const first = Number(from.value) - 1;
    const last = Number(to.value);
    const whole = first === 0 && last === state.seen.bars;
    return { whole, from: whole && state.seen.pickup && notes.length ? notes[0][1] : bars[first], to: bars[Math.max(last, first + 1)] };
  };

  line.addEventListener("click", async () => {
    const pressed = performance.now();
    const context = player.audio();
    try {
      const found = await prepare();
      const part = range(found.bars, found.notes);
      player.playLine(found.notes, { from: part.from, to: part.whole && !loop.checked ? Infinity : part.to, loop: loop.checked });
      place.dataset.latency = String(Math.round(performance.now() - pressed));
      if (!context) said.textContent = t("player.no-output");
    } catch (error) {
      told(error);
    }
  });

  let kept = null;
  band.addEventListener("click", async () => {
    player.stop();
    player.audio();
    const given = { fields: structuredClone(state.fields), tempo: asked(), loop: loop.checked };
    const key = JSON.stringify(given);
    try {
      if (!kept || kept.key !== key) {
        said.textContent = t("player.playing-in");
        kept = { key, ...(await sound("hear", given)) };
      }
      const part = range(kept.bars, kept.notes);
      const cut = part.whole ? {} : { from: part.from, to: part.to };
      await player.playSound(kept.wav, kept.notes, { ...cut, loop: loop.checked });
      said.textContent = player.context ? t("player.with", { what: kept.played_with }) : t("player.no-output");
    } catch (error) {
      said.textContent = "";
      told(error);
    }
  });

  stop.addEventListener("click", () => player.stop());
  addEventListener("keydown", (event) => {
    if (event.key === "Escape" && player.state !== "silent") player.stop();
  });

  loadPalette(player, said);
  return {
    player,
    touch: (note) => {
      if (state.seen && note >= 0 && note < state.seen.midi.length) player.touch(state.seen.midi[note]);
    },
    key: (midi, velocity) => player.touch(midi, { velocity }),
  };
}

async function loadPalette(player, said) {
  try {
    await player.setPalette(await sound("notes"));
    document.body.dataset.palette = "ready";
  } catch (error) {
    if (error instanceof Refused) said.textContent = error.message;
  }
}
