// Before the page is painted: the theme that was chosen. "system" leaves it to the browser.
try {
  const chosen = localStorage.getItem("theme");
  if (chosen === "light" || chosen === "dark") document.documentElement.dataset.theme = chosen;
} catch {
  // Without storage the system's choice holds.
}
