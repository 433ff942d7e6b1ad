import type { Words } from "../catalogue.ts";
import { menge } from "./forms/menge.ts";

/** Where checks belong in German. */
export const said: Words<"checks"> = {
  words: {
    what: "Wo Prüfungen hingehören",
    title: "Wo Prüfungen hingehören",
    lead: (units, faults) =>
      `Aus ${menge(units, "Gerät", "Geräten")} und ${menge(faults, "Fehler, der darin gefunden wurde", "Fehlern, die darin gefunden wurden")}: wo jeder gefunden wurde, wo er zu finden gewesen wäre und was jeder Schritt an Kosten dazutut.`,
    none: "Noch ist kein Fehler eingetragen. Tragen Sie jeden ein, sobald er gefunden ist, mit dem ersten Schritt, an dem er zu finden gewesen wäre.",
    today: (cents) => `Fehler und Prüfungen kosten heute ${cents} je Gerät.`,
    saves: "Was nach den Einträgen zu ändern ist",
    noSaves: "Noch spart keine neue oder verlegte Prüfung mit ihrem ganzen Bereich.",
    asToday: "Auch das ist eine Antwort: Bleiben Sie beim Bisherigen.",
    at: (money) => `zu ${money}`,
    kinds: {
      add: (check, to) => `Bei ${to} dazunehmen: ${check}`,
      move: (check, from, to) => `Von ${from} nach ${to} verlegen: ${check}`,
      drop: (check) => `Weglassen: ${check}`,
    },
    dear: "Teurer als das, was sie fanden",
    dearLead:
      "Nach diesen Einträgen kosten diese Prüfungen mehr, als die gefundenen Fehler später gekostet hätten. Was sie an falschen Griffen verhindern und was gefunden, aber nie eingetragen wurde, steht nicht darin: Der Inhaber entscheidet, und bis dahin bleibt jede verlangt. Kürzer hinzusehen ist der kleinere Schritt.",
    per: "je Gerät",
    perPiece: "je Stück",
    past: (count) =>
      count === 0
        ? "kein eingetragener Fehler wäre durchgerutscht"
        : count === 1
          ? "ein eingetragener Fehler wäre durchgerutscht"
          : `${count} eingetragene Fehler wären durchgerutscht`,
    units: (count) =>
      count === 1 ? "bei einem Gerät wäre es anders gekommen" : `bei ${count} Geräten wäre es anders gekommen`,
    interval: (saving, low, high) => `spart ${saving} je Gerät, zwischen ${low} und ${high}`,
    between: (low, high) => `${low} bis ${high}`,
    silent: "Sagen diese Einträge nicht",
    silentLead: "Ihr Bereich schließt null ein. Weitere Geräte werden es zeigen; bis dahin wird nichts vorgeschlagen.",
    soaks: "Wie lange eine Prüfung oder ein Wärmelauf lohnt",
    soaksLead: "Aus den Stunden, nach denen Stücke ausfielen oder rissen; was gut herauskam, zählt bis dahin als gut.",
    toSoaks: "Stunden im Buch",
    soakKinds: {
      shorten: (what, from, to) => `Von ${from} h auf ${to} h kürzen: ${what}`,
      lengthen: (what, from, to) => `Von ${from} h auf ${to} h verlängern: ${what}`,
    },
    soakSilent: (told) => `${told} (sagen diese Stunden nicht)`,
    soakPieces: (pieces, failures) => `${pieces} Stück, ${failures} ausgefallen.`,
    sorts: "Wo Fehler gefunden wurden",
    sort: "Fehler",
    possible: "Möglich ab",
    found: "Gefunden bei",
    order: "Reihenfolge der Prüfungen",
    orderLead:
      "Was die Prüfungen eines Geräts im Mittel an Handarbeit kosten, wenn beim ersten Fehler aufgehört wird: in der Reihenfolge des Modells und in der billigsten erlaubten. Was den Prüfenden schützt, behält seinen Platz.",
    minutes: (now, best) => `${now} min wie aufgeführt, ${best} min in der billigsten Reihenfolge`,
    proven: "Keine erlaubte Reihenfolge kostet weniger.",
    notProven: "Die billigste gefundene, nicht bewiesen.",
    show: (model) => `Die billigste Reihenfolge für ${model}`,
    toCosts: "Was ein Gerät kostet",
    toMorning: "Morgenkarte",
  },
};
