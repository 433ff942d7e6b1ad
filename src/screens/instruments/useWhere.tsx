import type { About } from "../../workshop/instruments/linkViews.ts";
import { Field } from "../common/fields.tsx";
import { useDraft } from "../common/useDraft.ts";
import { linked as words } from "./linkMessages.ts";

const blank = { unit: "", point: "", channel: "", valve: "", section: "", piece: "" };
type Part = keyof typeof blank;

/** Of what something is read: its fields, kept while they are typed, and what they say. */
export function useWhere(form: string, quantity: string) {
  const draft = useDraft<Part>(form, blank);
  const { typed } = draft;
  const parts = Object.entries(typed).flatMap(([part, text]) => (text.trim() === "" ? [] : [[part, text.trim()]]));
  const about: About = Object.fromEntries(parts);
  const isWeighed = quantity === "mass_g";
  const shown: readonly Part[] = isWeighed ? ["piece"] : ["unit", "point", "channel", "valve", "section"];
  const fields = shown.map((part) => (
    <Field key={part} label={words[part]} value={typed[part]} onChange={(now) => draft.change({ [part]: now })} />
  ));
  const isSaid = about.unit !== undefined || about.valve !== undefined || about.piece !== undefined;
  return { fields, about, isSaid, clear: draft.clear };
}
