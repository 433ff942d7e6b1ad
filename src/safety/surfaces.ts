/** What a hand may meet, by how it is met; a guide, adopted by nobody here. */
export interface TouchGuide {
  readonly contact: string;
  readonly metal_C?: number;
  readonly glass_C?: number;
  readonly wood_C?: number;
  /** Whether every figure of the row was read in a public text, or some are from memory. */
  readonly seen: "copy" | "memory";
}

/**
 * Touch temperatures of surfaces at a room of 25 °C.
 *
 * @source  IEC 62368-1:2018 (ed. 3) table 38: metal held over a minute and touched for ten seconds and more read in
 *   design reviews that quote it, all other figures from memory (reference/safety.json)
 */
export const touchGuides: readonly TouchGuide[] = [
  { contact: "held for more than a minute", metal_C: 48, seen: "copy" },
  { contact: "held for more than a minute", glass_C: 48, wood_C: 48, seen: "memory" },
  { contact: "touched for 10 s to a minute, as a knob", metal_C: 51, seen: "copy" },
  { contact: "touched for 10 s to a minute, as a knob", glass_C: 56, wood_C: 60, seen: "memory" },
  { contact: "touched for 1 to 10 s", metal_C: 60, glass_C: 71, wood_C: 107, seen: "memory" },
  { contact: "brushed in passing, under a second", metal_C: 70, glass_C: 85, wood_C: 140, seen: "memory" },
];
