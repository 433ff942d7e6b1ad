// The light that this machine shows its screens in: chosen on it, else the one it wishes for. Before anything is painted,
// so that no bright paper comes up in a dim room.
try {
  const kept = localStorage.getItem("stillglow.light");
  const dim = matchMedia("(prefers-color-scheme: dark)").matches;
  document.documentElement.dataset.light = kept === "lamp" || kept === "day" ? kept : dim ? "lamp" : "day";
} catch {
  document.documentElement.dataset.light = "day";
}
