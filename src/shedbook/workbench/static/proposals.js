// New lines over the chords of the phrase, and variants of its line: read, heard, and taken only if the author wants.

import { $, call, make, putScore, say, told } from "./page.js";
import { fieldsNow, state, write, writeStep } from "./phrase.js";
import { signs, t } from "./words.js";

const TEXTS = ["changes", "line", "scales"];
const PLACES = ["metre", "pickup"];

export function proposals({ player }) {
  const part = draftPart(player);
  let seed = 0;
  let askedFor = "";

  const wishes = () => ({
    shape: $("wish-shape").value,
    level: Number($("wish-level").value),
    first: $("wish-first").value,
    last: $("wish-last").value,
    whole_scale: $("wish-whole").checked,
    like: $("wish-like").checked,
  });

  $("wishes").addEventListener("submit", (event) => {
    event.preventDefault();
    const given = wishes();
    const now = JSON.stringify([given, fieldsNow().changes, fieldsNow().scales]);
    seed = now === askedFor ? seed + 1 : 1; // asked once more for the same, others come
    askedFor = now;
    propose("propose", { ...given, seed }, (one, index) => t("proposals.draft-name", { n: index + 1, level: one.level }));
  });
  $("varying").addEventListener("submit", (event) => {
    event.preventDefault();
    propose("vary", { onto: $("onto").value }, (one) => t("proposals.variant-name", { title: signs(one.title), level: one.level }));
  });

  async function propose(name, given, named) {
    const buttons = [$("propose"), $("vary")];
    for (const button of buttons) button.disabled = true;
    $("proposals-said").textContent = t("proposals.working");
    try {
      const answer = await call(name, { fields: fieldsNow(), ...given });
      $("proposed").replaceChildren(...answer.found.map((one, index) => part(one, named(one, index))));
      $("proposals-said").textContent = [answer.found.length ? t("proposals.there", { n: answer.found.length }) : "", signs(answer.instead)].filter(Boolean).join(" ");
    } catch (error) {
      $("proposals-said").textContent = "";
      told(error);
    } finally {
      for (const button of buttons) button.disabled = false;
      document.body.dataset.proposed = String(Number(document.body.dataset.proposed ?? 0) + 1);
    }
  }
}

/** Return what makes a list item of a line that may be taken: its score, its sound, its reasons, its buttons. */
export function draftPart(player) {
  return part;

  function part(one, name) {
    const place = make("div", { className: "row-score" });
    putScore(place, one.score, { label: t("proposals.score", { name }) });
    place.style.setProperty("--mm", one.score.mm[0]);
    const button = (what, todo) => make("button", { type: "button", textContent: what, "aria-label": t("proposals.of", { what, name }), onclick: todo });
    return make(
      "li",
      {},
      make("h3", { textContent: name }),
      place,
      make("p", { textContent: signs(one.said) }),
      make("p", { className: "row" }, button(t("proposals.hear"), () => hear(one)), button(t("proposals.take"), (event) => take(one, event.target)), button(t("proposals.here"), () => here(one))),
    );
  }

  async function hear(one) {
    player.audio();
    try {
      const kept = Object.fromEntries(["key", "tempo", "feel"].filter((name) => name in fieldsNow()).map((name) => [name, fieldsNow()[name]]));
      const found = await call("times", { fields: { ...kept, ...one.fields }, tempo: null });
      player.playLine(found.notes.map(([, ...times], index) => [-1 - index, ...times]), { from: 0, to: Infinity, loop: false });
    } catch (error) {
      told(error);
    }
  }

  /** Make a phrase of its own of it; what the phrase that is open is otherwise stays with it. */
  async function take(one, button) {
    const kept = Object.fromEntries(["key", "tempo", "feel"].filter((name) => fieldsNow()[name] !== undefined && fieldsNow()[name] !== null).map((name) => [name, fieldsNow()[name]]));
    try {
      const title = t("proposals.new-title", { title: fieldsNow().title ?? state.seen?.title ?? "" });
      const found = await call("act", { act: "add", title, fields: { ...kept, ...one.fields } });
      button.replaceWith(make("a", { href: `/phrase?${new URLSearchParams({ file: found.file, index: found.index })}`, textContent: t("proposals.taken") }));
      say(t("proposals.taken-said", { title }));
    } catch (error) {
      told(error);
    }
  }

  /** Write it over the line that is open; each text can be taken back. */
  function here(one) {
    for (const name of PLACES) if ((fieldsNow()[name] ?? null) !== (one.fields[name] ?? null)) put(name, one.fields[name] ?? null);
    for (const name of TEXTS) if (name !== "scales" || one.fields.scales !== undefined) writeStep(name, one.fields[name] ?? "");
    say(t("proposals.here-said"));
  }

  function put(name, value) {
    $(name).value = value ?? "";
    write(name, value);
  }
}
