/** A part of an address as it was meant; one that is not rightly written is taken as it stands. */
export function decode(part: string): string {
  try {
    return decodeURIComponent(part);
  } catch {
    return part;
  }
}
