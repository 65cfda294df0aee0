// A phrase in all its keys on one screen, for whichever edition, to skim for ugly spots.

import { $, ask, call, make, putScore, told } from "./page.js";
import { signs, t } from "./words.js";

const query = new URLSearchParams(location.search);
const ref = { file: query.get("file") ?? "", index: Number(query.get("index") ?? 0) };
let phrase;

async function begin() {
  phrase = await ask("/api/phrase", ref);
  $("phrase-link").textContent = phrase.title;
  $("phrase-link").href = `/phrase?${new URLSearchParams(ref)}`;
  $("keys-title").textContent = t("keys.title", { title: phrase.title });
  document.title = t("phrase.window", { title: t("keys.title", { title: phrase.title }), app: t("app.name") });
  for (const [name, title] of phrase.editions) $("edition").append(make("option", { value: name, textContent: title }));
  $("edition").addEventListener("change", () => draw().catch(told));
  $("paper").addEventListener("change", paper);
  $("print").addEventListener("click", () => print());
  $("pages").addEventListener("click", pages);
  paper();
  await draw();
}

function paper() {
  document.body.dataset.paper = $("paper").value;
}

async function draw() {
  $("keys-said").textContent = t("keys.drawing");
  const found = await call("keys", { fields: phrase.fields, edition: $("edition").value });
  $("keys").replaceChildren(
    ...found.map((one) => {
      const place = make("div", { className: "row-score" });
      putScore(place, one.score, { label: t("keys.score", { key: one.name, title: phrase.title }) });
      place.style.setProperty("--mm", one.score.mm[0]);
      return make("section", {}, make("h2", { textContent: signs(one.name) }), place);
    }),
  );
  $("keys-said").textContent = "";
  document.body.dataset.keys = String(found.length);
}

async function pages() {
  $("keys-said").textContent = t("print.working");
  try {
    const found = await call("print", { ...ref, edition: $("edition").value, paper: $("paper").value });
    $("keys-said").replaceChildren(make("a", { href: found.address, target: "_blank", rel: "noopener", textContent: t("print.open") }));
  } catch (error) {
    $("keys-said").textContent = "";
    told(error);
  }
}

begin().catch(told);
