const kinds = [
  { type: "image/jpeg", at: 0, bytes: [0xff, 0xd8, 0xff] },
  { type: "image/png", at: 0, bytes: [0x89, 0x50, 0x4e, 0x47] },
  { type: "image/webp", at: 8, bytes: [0x57, 0x45, 0x42, 0x50] },
] as const;

/** What kind of picture these bytes begin, if any. */
export function photoType(bytes: Uint8Array): string | undefined {
  return kinds.find(({ at, bytes: first }) => first.every((one, i) => bytes[at + i] === one))?.type;
}
