// Making the book: what is wanted, how far it is, what came of it.

import { $, ask, call, make, onNews, told } from "./page.js";
import { counted, t } from "./words.js";

let filled = false;

async function load() {
  const found = await ask("/api/made");
  document.title = t("phrase.window", { title: t("make.title"), app: t("app.name") });
  if (!filled) {
    filled = true;
    const chosen = new Set(found.editions);
    for (const [name, title] of found.known) {
      const box = make("input", { type: "checkbox", value: name, checked: chosen.has(name) });
      const place = $(name === title ? "instruments" : "editions"); // what is for one instrument has its name
      place.append(make("label", { className: "check" }, box, " ", title));
    }
    $("single").open = Boolean($("instruments").querySelector(":checked"));
    $("sample-size").max = found.phrases;
    if (found.practice_page) {
      Object.assign($("practice"), { checked: true, disabled: true });
      $("practice-said").textContent = t("make.practice-asked");
    }
    show(found.state);
  }
  const fresh = found.built_at && !found.newer.length && !found.settings_newer;
  $("up-to-date").textContent = !found.built_at ? t("make.never") : fresh ? t("make.fresh") : t("make.stale");
  $("folder").textContent = found.files.length ? t("make.folder", { folder: found.folder }) : t("make.nothing");
  $("files").replaceChildren(
    ...found.files.map(made),
  );
  $("since").hidden = !found.built_at;
  const newer = [...(found.settings_newer ? [t("make.settings")] : []), ...found.newer];
  $("newer").replaceChildren(...(newer.length ? newer : [t("make.no-changes")]).map((one) => make("li", { textContent: one })));
}

/** One thing that was made: a file, or a folder that a file in it opens. */
function made({ name, bytes, opens }) {
  const address = `/made/${(opens ?? name).split("/").map(encodeURIComponent).join("/")}`;
  const size = t("make.size", { n: bytes < 1e6 ? Math.max(1, Math.round(bytes / 1e3)) + " kB" : (bytes / 1e6).toFixed(1) + " MB" });
  return make(
    "li",
    {},
    make("span", { className: "file-name", textContent: name }),
    " ",
    make("span", { className: "quiet", textContent: opens ? `${t("make.practice-folder")}, ${size}` : size }),
    " ",
    make("a", { href: `${address}?open=1`, target: "_blank", rel: "noopener", textContent: t("make.open"), "aria-label": t("make.open-this", { name }) }),
    " ",
    opens ? null : make("a", { href: address, download: "", textContent: t("make.download"), "aria-label": t("make.download-this", { name }) }),
  );
}

function show(state) {
  document.body.dataset.making = state.state;
  const working = ["starting", "running", "stopping"].includes(state.state);
  $("progress").hidden = !working;
  $("stop").hidden = !working;
  $("stop").disabled = state.state === "stopping";
  $("build").disabled = working;
  if (state.state === "running") {
    $("bar").max = state.of;
    $("bar").value = state.done;
    $("making").textContent = t(`phase.${state.phase}`, { done: state.done, of: state.of });
  } else if (working) {
    $("bar").removeAttribute("value");
    $("making").textContent = t(`making.${state.state}`);
  }
  if (state.state === "done") showDone(state);
  else if (state.state === "failed") {
    $("outcome").replaceChildren(
      make("p", { className: "problem" }, make("strong", { textContent: t("making.failed") })),
      ...state.errors.map((one) => make("p", { textContent: [one.where, one.message || t("making.lost"), one.hint].filter(Boolean).join(" ") })),
    );
  } else if (state.state === "stopped") $("outcome").replaceChildren(make("p", { textContent: t("making.stopped") }));
}

function showDone(state) {
  const findings = state.findings.map((one) => make("li", { textContent: t("making.finding", { title: one.title || one.file, bar: one.bar ?? "–", message: one.message }) }));
  $("outcome").replaceChildren(
    make("p", { textContent: [counted("making.books", state.books.length), state.tracks ? counted("making.tracks", state.tracks) : "", state.practice ? t("making.practice") : "", t("making.took", { s: state.seconds, n: state.made })].filter(Boolean).join(" ") }),
    ...state.warnings.map((one) => make("p", { className: "problem", textContent: one })),
    ...(findings.length ? [make("details", {}, make("summary", { textContent: counted("making.findings", findings.length) }), make("ul", {}, ...findings))] : []),
  );
}

$("order").addEventListener("change", () => ($("sample").hidden = new FormData($("order")).get("kind") !== "sample"));
$("order").addEventListener("submit", async (event) => {
  event.preventDefault();
  const kind = new FormData($("order")).get("kind");
  $("outcome").replaceChildren();
  try {
    await call("build", {
      editions: [...document.querySelectorAll("#editions :checked, #instruments :checked")].map((one) => one.value),
      keys: $("make-keys").value.trim().split(/[\s,]+/).filter(Boolean),
      sample: kind === "sample" ? Number($("sample-size").value) : 0,
      proof_sheet: kind === "sheet",
      bundle: kind === "bundle",
      practice_page: $("practice").checked,
      tracks: $("tracks").checked ? [] : ["none"],
    });
  } catch (error) {
    told(error);
  }
});
$("stop").addEventListener("click", () => call("stop").catch(told));

let soon = 0;
onNews((news) => {
  if (news.what === "making") {
    show(news);
    if (["done", "failed", "stopped"].includes(news.state)) load().catch(told);
  } else if (news.what === "changed" || news.what === "back") {
    clearTimeout(soon);
    soon = setTimeout(() => load().catch(told), 150);
  }
});
load().catch(told);
