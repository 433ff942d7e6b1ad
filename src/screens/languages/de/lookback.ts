import type { Words } from "../catalogue.ts";
import { menge } from "./forms/menge.ts";

/** The look-back in German. */
export const said: Words<"lookback"> = {
  words: {
    what: "Der Rückblick",
    title: "Rückblick",
    lead: "Jede Sprosse ist ein Arbeitsschritt. Ein Pfeil führt von dort, wo ein Fehler gefunden wurde, hinab zum ersten Schritt, der ihn hätte zeigen können; je dicker, desto mehr Stunden hat er gekostet.",
    sum: (faults, units, late) =>
      `${menge(faults, "Fehler", "Fehler")} an ${menge(units, "Gerät, das hinausging", "Geräten, die hinausgingen")}; ${late} davon später gefunden als möglich.`,
    returns: (count, without) =>
      `${count === 1 ? "1 Gerät kam" : `${count} Geräte kamen`} zurück${without > 0 ? `; bei ${without} ist kein Fehler eingetragen` : ""}.`,
    none: "Kein Fehler eingetragen",
    noneWords:
      "Tragen Sie einen Fehler ein, mit dem Ort, wo er gefunden wurde und wo er zu finden gewesen wäre; dann füllt sich die Leiter.",
    found: (count) => `${count} gefunden`,
    arrow: (fault, found, possible) => `${fault} (gefunden: ${found}, möglich ab: ${possible})`,
    arrows: "Was jeder Pfeil gekostet hat",
    count: (faults, hours, money) => `${faults}-mal, ${hours} h, ${money}`,
    quiet: (count) => (count === 1 ? "noch einer, der nichts sagt" : `${count} weitere, die noch nichts sagen`),
    key: "Volle Linie: Früher gefunden, hätte es sicher gespart. Striche: vom Zufall nicht zu trennen. Punkte: zu wenige.",
    plate: "Die Heizplatte",
    tryIt: "An allen Terminen durchspielen",
    notes: "Worauf diese Zahlen beruhen",
    ladder: "Leiter der Arbeitsschritte, der erste unten",
  },
};
