import { localeInUse, spoken } from "../languages/spoken.ts";
import { stepName } from "./messages.ts";

/** Species of the catalogue by their English names, small. */
export const woods: Readonly<Record<string, string>> = spoken("trade", "woods", {
  "black walnut": "black walnut",
  "black cherry": "black cherry",
  "white ash": "white ash",
  "northern red oak": "northern red oak",
  "white oak": "white oak",
  "sugar maple": "sugar maple",
  "red maple": "red maple",
  "yellow birch": "yellow birch",
  "sweet birch": "sweet birch",
  "American beech": "American beech",
  "yellow-poplar": "yellow-poplar",
  "red alder": "red alder",
  "black ash": "black ash",
  "shagbark hickory": "shagbark hickory",
  "black locust": "black locust",
  "black tupelo": "black tupelo",
  afrormosia: "afrormosia",
  "African mahogany": "African mahogany",
  "true mahogany": "true mahogany",
  sapele: "sapele",
  iroko: "iroko",
  teak: "teak",
  merbau: "merbau",
  ovangkol: "ovangkol",
  okoume: "okoume",
  jatoba: "jatoba",
  purpleheart: "purpleheart",
  "Indian rosewood": "Indian rosewood",
  "African padauk": "African padauk",
  wenge: "wenge",
  "American elm": "American elm",
  doussié: "doussié",
  rowan: "rowan",
});

/** What shops call panels, finishes, choices, skills and stages; words that aren't here stay as they were written. */
export const words: Readonly<Record<string, string>> = spoken("trade", "words", {
  top: "top",
  bottom: "bottom",
  front: "front",
  back: "back",
  "left side": "left side",
  "right side": "right side",
  "hardening oil": "hardening oil",
  "clear lacquer": "clear lacquer",
  oil: "oil",
  lacquer: "lacquer",
  shellac: "shellac",
  soap: "soap",
  timber: "timber",
  finish: "finish",
  voltage: "voltage",
  "as sorted": "as sorted",
  "closely paired": "closely paired",
  wood: "wood",
  valves: "valves",
  voltages: "voltages",
  audio: "audio",
  safety: "safety",
  "hot plate": "hot plate",
  "test points input": "test points input",
  balance: "balance",
  hum: "hum",
  response: "response",
  noise: "noise",
  "case gap": "case gap",
  "case soak": "case soak",
  "earth bond": "earth bond",
  "the customer": "the customer",
});

/** A timber as the reader calls it. */
export const woodName = (species: string): string => told(woods, species) ?? species;

/** The catalogue's name of a timber that was typed in the reader's words; another as it was typed. */
export function woodTyped(typed: string): string {
  const own = small(typed);
  if (told(woods, typed) !== undefined) return typed;
  return Object.entries(woods).find(([, said]) => small(said) === own)?.[0] ?? typed;
}

/** A word of the trade that a shop wrote, as the reader says it. */
export const tradeWord = (written: string): string => told(words, written) ?? told(woods, written) ?? stepName(written);

const small = (text: string): string => text.trim().toLocaleLowerCase(localeInUse());

function told(table: Readonly<Record<string, string>>, written: string): string | undefined {
  const found = Object.entries(table).find(([name]) => small(name) === small(written));
  return found && (found[0] === found[1] ? written : found[1]);
}
