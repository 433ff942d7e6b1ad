/** A quantity's name ends in its unit (`plate_mA`); here it is taken apart into words and the printed sign. */
const signs: Readonly<Record<string, string>> = {
  pct: "%",
  ohm: "Ω",
  kohm: "kΩ",
  Mohm: "MΩ",
  uA: "µA",
  uF: "µF",
  uV: "µV",
  C: "°C",
  deg: "°",
  Vrms: "V r.m.s.",
  mVrms: "mV r.m.s.",
  uVrms: "µV r.m.s.",
  Vpk: "V peak",
  Vqp: "V quasi-peak",
  min: "min",
};
const units = new Set([
  ...Object.keys(signs),
  "dB",
  "dBV",
  "dBA",
  "V",
  "mV",
  "A",
  "mA",
  "mS",
  "W",
  "mW",
  "mJ",
  "Hz",
  "kHz",
  "h",
  "s",
  "ms",
  "mm",
  "g",
  "kg",
  "T",
  "H",
  "K",
]);

/** What is said at a bench where the name alone would be stiff; for the stem, without its unit. */
const plain: Readonly<Record<string, string>> = {
  fuseOverCurrent: "fuse rating over the current drawn",
  labelDifference: "label against the tap",
  touch: "touch current",
  discharge: "discharge time",
  jack: "jack DC",
  biasShort: "current with the bias shorted",
  hum_margin: "hum above hearing",
  flux: "flux in the core",
  moistureDifference: "moisture against its destination",
};

export interface QuantityWords {
  readonly name: string;
  /** Printed sign of the unit; empty for a bare ratio. */
  readonly unit: string;
}

export function quantityWords(quantity: string): QuantityWords {
  const cut = quantity.lastIndexOf("_");
  const tail = quantity.slice(cut + 1);
  const known = cut > 0 && units.has(tail);
  const stem = known ? quantity.slice(0, cut) : quantity;
  const spelt = stem
    .replace(/^([a-z]+)A$/, "A-weighted $1")
    .replace(/_/g, " ")
    .replace(/([a-z])([A-Z])(?=[a-z])/g, (_, a: string, b: string) => `${a} ${b.toLowerCase()}`)
    .replace(/^ht\b/, "HT")
    .replace(/\bthd\b/, "THD")
    .replace(/\bdc\b/, "DC");
  const name = Object.hasOwn(plain, stem) ? plain[stem]! : spelt;
  return { name, unit: known ? (signs[tail] ?? tail) : "" };
}
