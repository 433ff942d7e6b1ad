// The house rule of docs/contributing.md: a folder imports only from folders above it in this list.
const house = [
  "maths",
  "measurement",
  "valves",
  "circuits",
  "bench",
  "hum",
  "timber",
  "safety",
  "production",
  "listening",
  "claims",
  "dossier",
  "calculations",
];
const at = (names) => `^src/(${names.join("|")})/`;
const outside = ["store", "exchange", "instruments", "workshop", "server", "cli", "screens", "demo"];
module.exports = {
  forbidden: [
    ...house.map((folder, i) => ({
      name: `${folder}-imports-only-upward`,
      severity: "error",
      from: { path: `^src/${folder}/` },
      to: { path: at([...house.slice(i + 1), ...outside]) },
    })),
    {
      name: "demo-makes-evidence-with-maths-and-circuits-alone",
      comment:
        "Recordings and readings must come from physics, never from the code that will judge them. Types of evidence are shared.",
      severity: "error",
      from: { path: "^src/demo/" },
      to: {
        path: at(
          house.filter((f) => !["maths", "circuits"].includes(f)).concat(["workshop", "server", "screens", "store"]),
        ),
        dependencyTypesNot: ["type-only"],
      },
    },
    {
      name: "nothing-knows-the-demo-but-its-command",
      severity: "error",
      from: { path: "^src/", pathNot: "^src/(demo/|cli/demo)" },
      to: { path: "^src/demo/" },
    },
    {
      name: "trade-folders-touch-no-disk-network-or-clock",
      severity: "error",
      from: { path: at(house), pathNot: "\\.test\\.tsx?$" },
      to: { path: "^(node:)?(fs|fs/promises|net|http|https|child_process|os|process|worker_threads)$" },
    },
    { name: "no-circles", severity: "error", from: {}, to: { circular: true } },
  ],
  options: {
    tsPreCompilationDeps: true,
    tsConfig: { fileName: "tsconfig.json" },
    doNotFollow: { path: "node_modules" },
    exclude: { path: "\\.test\\.tsx?$" },
  },
};
