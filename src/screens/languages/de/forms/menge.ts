/** A count with its noun: `1 Röhre`, `3 Röhren`. */
export const menge = (anzahl: number, eins: string, viele: string): string =>
  anzahl === 1 ? `1 ${eins}` : `${anzahl} ${viele}`;
