/** What stands before the thickness a piece is planed to, in each language that the screens speak. */
const planedTo = "(?:planed\\s+)?to|(?:gehobelt\\s+)?auf|(?:strugan[ae]\\s+)?na";
const stage = new RegExp(`^(.+?)\\s+([\\d.,]+)\\s*h?(?:\\s+(?:${planedTo})\\s+([\\d.,]+)\\s*(?:mm)?)?$`, "i");

/**
 * Stages as they are typed: a place, its hours, and the thickness planed to as it begins, where it is.
 *
 * @returns the part that can't be read, where there is one
 * @example stagesIn("warm chamber 48; case shop 24 planed to 18")
 */
export function stagesIn(typed: string) {
  const parts = typed
    .split(";")
    .map((one) => one.trim())
    .filter(Boolean);
  const read = parts.map((part) => {
    const found = stage.exec(part);
    const hours = Number((found?.[2] ?? "").replace(",", "."));
    if (!found || !(hours > 0)) return part;
    const planed_mm = Number((found[3] ?? "").replace(",", "."));
    return { place: found[1]!, hours, ...(planed_mm > 0 && { machinedTo_mm: planed_mm }) };
  });
  return read.find((one) => typeof one === "string") ?? (read as Exclude<(typeof read)[number], string>[]);
}
