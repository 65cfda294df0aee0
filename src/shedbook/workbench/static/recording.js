// A recording of the phrase: chosen, dropped or from the microphone; what was heard stands over the score, in words.

import { $, call, make, say, send, told } from "./page.js";
import { choose, fieldsNow, onSeen, ref, state } from "./phrase.js";
import { MOST_S, canRecord, isSound, record } from "./microphone.js";
import { draftPart } from "./proposals.js";
import { drawMarks } from "./heard_marks.js";
import { counted, signs, t } from "./words.js";

const MOST_MB = 100;
const TOO_LOUD = 0.99;

export function recordings({ player }, save) {
  const part = draftPart(player);
  let held = null; // { recording, file, answer, take }
  let turn = 0; // an answer that comes after the recording was put away, or after another, is not shown
  let running = null;
  let sounding = null;

  // What comes in

  $("took-file").addEventListener("change", () => {
    const [file] = $("took-file").files;
    $("took-file").value = ""; // the same file may be chosen again
    if (file) take(file);
  });
  addEventListener("drop", (event) => {
    const file = event.dataTransfer?.files[0];
    if (!file || !isSound(file)) return;
    event.preventDefault();
    $("took").open = true;
    $("took").scrollIntoView({ block: "nearest" });
    take(file);
  });
  $("took-record").addEventListener("click", begin);
  $("took-stop").addEventListener("click", () => finish());

  async function begin() {
    if (running) return;
    if (!canRecord()) return status(t("took.no-microphone"));
    player.stop();
    running = { stop: async () => null };
    $("took-record").disabled = true;
    let shown = -1;
    try {
      running = await record((seconds, peak) => {
        if (peak > TOO_LOUD) $("took-clock").classList.add("loud");
        if (Math.floor(seconds) !== shown) {
          shown = Math.floor(seconds);
          const loud = $("took-clock").classList.contains("loud") ? t("took.too-loud") : "";
          $("took-clock").textContent = [t("took.clock", { clock: clock(seconds), most: clock(MOST_S) }), loud].filter(Boolean).join(", ");
        }
        if (seconds >= MOST_S) finish(t("took.full"));
      });
    } catch {
      running = null;
      $("took-record").disabled = false;
      return status(t("took.refused"));
    }
    $("took-record").hidden = true;
    $("took-stop").hidden = false;
    $("took-stop").focus();
    status(t("took.recording"));
  }

  async function finish(why = "") {
    if (!running) return;
    const ending = running;
    running = null;
    const sound = await ending.stop();
    $("took-stop").hidden = true;
    $("took-record").hidden = false;
    $("took-record").disabled = false;
    $("took-clock").textContent = "";
    $("took-clock").classList.remove("loud");
    if (why) say(why);
    if (!sound) return status(t("took.nothing"));
    const when = new Date().toTimeString().slice(0, 8).replaceAll(":", "-");
    await take(new File([sound], t("took.own-name", { when }), { type: sound.type }));
    $("took-hear").focus();
  }

  async function take(file) {
    await putAway();
    if (file.size > MOST_MB * 1e6) return status(t("took.too-big", { name: file.name, most: MOST_MB }));
    const mine = ++turn;
    status(t("took.listening"));
    try {
      const { recording } = await send("recording", file);
      if (mine !== turn) return forget(recording);
      held = { recording, file, answer: null, take: null };
      $("took-name").textContent = file.name;
      await listen();
    } catch (error) {
      if (mine === turn) refuse(error);
    }
  }

  async function listen() {
    const mine = turn;
    status(t("took.listening"));
    $("took-done").hidden = false;
    $("took-keep").parentElement.hidden = true;
    try {
      await save(); // what is listened for is what is on disk
      const answer = await call("listen", { ...ref, recording: held.recording });
      if (mine !== turn) return;
      held.answer = answer;
      status("");
      offerTakes(answer);
    } catch (error) {
      if (mine === turn) refuse(error);
    } finally {
      document.body.dataset.heard = String(Number(document.body.dataset.heard ?? 0) + 1);
    }
  }

  function refuse(error) {
    status("");
    if (error.error) status(error.message, true);
    else told(error);
  }

  function status(text, wrong = false) {
    $("took-said").textContent = signs(text);
    $("took-said").classList.toggle("problem", wrong);
  }

  // What was heard

  function offerTakes(answer) {
    const best = answer.takes.find((one) => one.here && one.best) ?? answer.takes.find((one) => one.here) ?? answer.takes[0] ?? null;
    const named = (one) => t("took.take", { n: one.number, from: one.from, to: one.to, what: [one.title, signs(one.key)].join(", ") });
    const options = answer.takes.map((one) => make("option", { value: one.number, textContent: one.best ? t("took.best", { take: named(one) }) : named(one) }));
    $("took-which").replaceChildren(...options);
    $("took-several").hidden = options.length < 2;
    if (best) $("took-which").value = String(best.number);
    showTake(best);
  }
  $("took-which").addEventListener("change", () => showTake(held.answer.takes.find((one) => String(one.number) === $("took-which").value)));

  function showTake(one) {
    held.take = one;
    $("took-kept").replaceChildren();
    $("took-keep").disabled = false;
    $("took-keep").parentElement.hidden = !one?.here;
    $("took-told").replaceChildren(...(one ? takeParts(one) : noneParts(held.answer)));
    marks();
  }

  const group = (title, lines) => (lines.length ? [make("p", {}, make("strong", { textContent: title })), make("ul", {}, ...lines)] : []);
  const lineOf = (text) => make("li", { textContent: signs(text) });

  function noneParts(answer) {
    return [make("p", {}, make("strong", { textContent: t("took.none") })), ...group(t("took.sound"), [...answer.others, ...answer.sound].map(lineOf))];
  }

  function takeParts(one) {
    const head = !one.here ? t("took.other") : one.slips ? counted("took.heard", one.slips) : t("took.all-right");
    const parts = [make("p", {}, make("strong", { textContent: head }))];
    for (const sentence of one.amiss) parts.push(make("p", { textContent: signs(sentence) }));
    if (!one.here) {
      parts.push(make("p", {}, make("a", { href: `/phrase?${new URLSearchParams({ file: one.file, index: one.index })}`, textContent: t("took.open", { title: one.title }) })));
    } else if (one.moved) parts.push(make("p", { textContent: signs(t("took.key", { key: one.key })) }));
    parts.push(make("p", { id: "took-changed", className: "row", hidden: true }, make("span", { textContent: t("took.changed") }), make("button", { type: "button", textContent: t("took.again"), onclick: listen })));
    const byNote = one.marks.map((mark, index) => {
      const item = make("li", { id: `heard-${index}`, className: mark.kind }, signs(mark.says));
      if (one.here) item.append(" ", make("button", { type: "button", className: "link", textContent: t("took.show"), "aria-label": t("took.show-this", { says: signs(mark.says) }), onclick: () => choose(Math.max(0, mark.note), { focus: true }) }));
      return item;
    });
    parts.push(...group(t("took.by-note"), byNote), ...group(t("took.playing"), one.playing.map(lineOf)), ...group(t("took.sound"), [...held.answer.others, ...held.answer.sound].map(lineOf)));
    return parts;
  }

  /** Put the marks over the score, while its notes are those that were listened for. */
  function marks() {
    const one = held?.take;
    const seen = state.seen;
    const same = Boolean(one?.here && seen && JSON.stringify([one.midi, one.starts]) === JSON.stringify([seen.midi, seen.starts]));
    drawMarks($("score"), seen, state.scale, same ? one.marks : []);
    if ($("took-changed")) $("took-changed").hidden = same || !one?.here;
  }
  onSeen(marks);

  // What is done with it

  $("took-hear").addEventListener("click", async () => {
    if (sounding) return quiet();
    player.stop();
    const address = URL.createObjectURL(held.file);
    sounding = { audio: new Audio(address), address };
    sounding.audio.onended = quiet;
    $("took-hear").textContent = t("took.quiet");
    try {
      await sounding.audio.play();
    } catch (error) {
      if (error.name !== "AbortError") say(t("took.unplayable"));
      quiet();
    }
  });

  function quiet() {
    if (!sounding) return;
    const { audio, address } = sounding;
    sounding = null;
    audio.pause();
    URL.revokeObjectURL(address);
    $("took-hear").textContent = t("took.hear");
  }

  $("took-keep").addEventListener("click", () => keep(false));

  async function keep(replace) {
    $("took-keep").disabled = true;
    try {
      const answer = await call("keep", { ...ref, recording: held.recording, take: held.take.number, replace });
      if (answer.kept) return $("took-kept").replaceChildren(t("took.kept", { file: answer.kept }));
      const instead = make("button", { type: "button", textContent: t("took.replace"), onclick: () => keep(true) });
      $("took-kept").replaceChildren(t("took.there", { file: answer.there }), " ", instead);
    } catch (error) {
      $("took-kept").replaceChildren();
      $("took-keep").disabled = false;
      told(error);
    }
  }

  $("took-writing").addEventListener("submit", async (event) => {
    event.preventDefault();
    const mine = turn;
    $("took-write").disabled = true;
    $("took-written").textContent = t("took.writing");
    try {
      const answer = await call("write_down", { recording: held.recording, fields: fieldsNow(), tempo: Number($("took-tempo").value) || 0 });
      if (mine !== turn) return;
      const one = answer.found.length === 1;
      $("took-drafts").replaceChildren(...answer.found.map((draft, index) => part(draft, one ? t("took.draft") : t("took.draft-part", { n: index + 1 }))));
      $("took-written").textContent = signs([t("took.written"), answer.instead].join(" "));
    } catch (error) {
      $("took-written").textContent = error.error ? signs(error.message) : "";
      if (!error.error) told(error);
    } finally {
      $("took-write").disabled = false;
    }
  });

  $("took-away").addEventListener("click", async () => {
    await putAway();
    $("took-record").focus();
  });

  async function putAway() {
    turn += 1;
    quiet();
    status("");
    const old = held;
    held = null;
    $("took-done").hidden = true;
    $("took-told").replaceChildren();
    $("took-drafts").replaceChildren();
    $("took-written").textContent = "";
    marks();
    if (old) await forget(old.recording);
  }

  const forget = (recording) => call("forget", { recording }).catch(() => {});
}

const clock = (seconds) => `${Math.floor(seconds / 60)}:${String(Math.floor(seconds % 60)).padStart(2, "0")}`;
