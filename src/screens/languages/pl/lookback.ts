import type { Words } from "../catalogue.ts";
import { ile } from "./forms/ile.ts";

/** The look-back in Polish. */
export const said: Words<"lookback"> = {
  words: {
    what: "Spojrzenie wstecz",
    title: "Spojrzenie wstecz",
    lead: "Każdy szczebel to etap pracy. Strzałka prowadzi stąd, gdzie usterkę znaleziono, w dół do pierwszego etapu, który mógł ją pokazać; im grubsza, tym więcej godzin zabrała.",
    sum: (faults, units, late) =>
      `${ile(faults, "usterka", "usterki", "usterek")}, ${ile(units, "urządzenie, które wyszło", "urządzenia, które wyszły", "urządzeń, które wyszły")}; ${late} z nich znaleziono później, niż można było.`,
    returns: (count, without) =>
      `${ile(count, "urządzenie wróciło", "urządzenia wróciły", "urządzeń wróciło")}${without > 0 ? `; dla ${without} nie zapisano usterki` : ""}.`,
    none: "Nie zapisano żadnej usterki",
    noneWords: "Zapisz usterkę: gdzie ją znaleziono i gdzie można było; wtedy drabina się wypełni.",
    found: (count) => `znaleziono ${count}`,
    arrow: (fault, found, possible) => `${fault} (znaleziono: ${found}, można było od: ${possible})`,
    arrows: "Ile kosztowała każda strzałka",
    count: (faults, hours, money) => `${ile(faults, "raz", "razy", "razy")}, ${hours} h, ${money}`,
    quiet: (count) =>
      `jeszcze ${ile(count, "strzałka, która nic nie mówi", "strzałki, które nic nie mówią", "strzałek, które nic nie mówią")}`,
    key: "Linia ciągła: znaleziona wcześniej na pewno by oszczędziła. Kreski: nie do odróżnienia od przypadku. Kropki: za mało, by orzec.",
    plate: "Płyta grzewcza",
    tryIt: "Wypróbuj na wszystkich terminach",
    notes: "Na czym opierają się te liczby",
    ladder: "Drabina etapów, pierwszy na dole",
  },
};
