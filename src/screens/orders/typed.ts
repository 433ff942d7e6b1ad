/** `timber: white ash; finish: oil` as pairs; a text when it can't be read. */
export function optionsOf(typed: string): Readonly<Record<string, string>> | { readonly unread: string } {
  const pairs: [string, string][] = [];
  for (const piece of typed.split(/[;\n]+/).map((one) => one.trim())) {
    if (piece === "") continue;
    const [, option, choice] = /^([^:]+):\s*(.+)$/.exec(piece) ?? [];
    if (option === undefined || choice === undefined) return { unread: piece };
    pairs.push([option.trim(), choice.trim()]);
  }
  return Object.fromEntries(pairs);
}

/** The end of a day's work on a day typed as 2027-02-15, by this machine's clock. */
export function dueOf(typed: string): string | undefined {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(typed)) return undefined;
  const at = new Date(`${typed}T17:00:00`);
  return Number.isNaN(at.getTime()) ? undefined : at.toISOString();
}
