import { refusal } from "../../calculations/refusal.ts";
import type { Shop } from "../../claims/index.ts";
import { type LinkDescription, linkDescription, linkFile } from "../../claims/links/description.ts";
import { BadInput } from "../../maths/badInput.ts";

export interface ReadLinkFile {
  readonly instrument: string;
  readonly description: LinkDescription;
  /** The instrument's own entry, where it is not on record yet. */
  readonly fresh?: object;
}

/**
 * A description as its user wrote it, checked field by field.
 *
 * @throws BadInput  at `quantities[0].answer` and the like
 */
export function readLinkFile(file: unknown, shop: Shop): ReadLinkFile {
  const parsed = linkFile.safeParse(file);
  if (!parsed.success) throw refusal(parsed.error, file);
  const { instrument, title, trial, ...described } = parsed.data;
  const description = linkDescription.safeParse(described);
  if (!description.success) throw refusal(description.error, described);
  if (shop.instruments.has(instrument)) return { instrument, description: description.data };
  const why = `needed, as ${instrument} is not on record yet`;
  if (title === undefined) throw new BadInput("title", "nothing", why, "give its name in words");
  if (trial === undefined) throw new BadInput("trial", "nothing", why, "say what it is tried on");
  return { instrument, description: description.data, fresh: { kind: "instrument", instrument, title, trial } };
}
