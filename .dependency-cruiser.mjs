// The arrows of the house: a room may import from itself and from rooms further down this list, never up.
const rooms = [
  "main",
  "screens",
  "commands",
  "demo",
  "report",
  "terminal",
  "chart",
  "words",
  "run",
  "store",
  "assess",
  "shift",
  "control",
  "procedure",
  "envelope",
  "uncertainty",
  "care",
  "grading",
  "record",
  "entry",
  "series",
];
const room = (name) => `^src/${name}([.]tsx?$|/)`;
const upward = rooms.slice(1).map((name, i) => ({
  name: `${name} imports only from below`,
  severity: "error",
  from: { path: room(name) },
  to: { path: `^src/(${rooms.slice(0, i + 1).join("|")})([.]tsx?$|/)` },
}));
const pure =
  "^src/(run|assess|shift|control|procedure|envelope|uncertainty|care|grading|record|entry|series)([.]tsx?$|/)";

export default {
  forbidden: [
    ...upward,
    { name: "no cycles", severity: "error", from: {}, to: { circular: true } },
    {
      name: "pure rooms touch no machine",
      severity: "error",
      from: { path: pure, pathNot: "^src/record/(seal|sealing)" },
      to: { dependencyTypes: ["core"] },
    },
    {
      name: "pure rooms know no screen and no disk",
      severity: "error",
      from: { path: pure },
      to: { path: "node_modules/(ink|react|lowdb)/" },
    },
    {
      name: "only the store touches the disk",
      severity: "error",
      from: { path: "^src/", pathNot: "^src/(store|main|commands)" },
      to: { path: "^(node:)?fs(/promises)?$" },
    },
    {
      name: "every room is on the list",
      severity: "error",
      from: { path: "^src/", pathNot: `^src/(${rooms.join("|")})([.]tsx?$|/)` },
      to: {},
    },
    {
      name: "no import from tests or tools",
      severity: "error",
      from: { path: "^src/" },
      to: { path: "^(tests|tools|\\.\\.)" },
    },
  ],
  options: {
    tsConfig: { fileName: "tsconfig.json" },
    tsPreCompilationDeps: true,
    doNotFollow: { path: "node_modules" },
    enhancedResolveOptions: { exportsFields: ["exports"], conditionNames: ["import", "node", "default"] },
  },
};
