import { z } from "zod";
import { refusal } from "../../calculations/refusal.ts";
import {
  type NotebookCase,
  notebook,
  notebookIndex,
  outlooks,
  readDraft,
  type TrialQuestion,
  trial,
  trialOutlook,
} from "./notebook.ts";
import { releaseDraft } from "./release.ts";
import type { DraftView, NotebookIndexView, NotebookView, OutlookView, ReleaseDraftView, TrialView } from "./views.ts";

const name = z.string().min(1).max(120);
const text = z.string().max(1_000_000);
const number = z.number().min(-1e15).max(1e15);

const trialQuestion = z.object({
  text,
  benched: z.object({
    channels: z.array(z.object({ channel: name, input: name, output: name })).max(8),
    loads: z
      .array(z.object({ name, ohm: number.positive(), level_Vrms: number.positive().optional() }))
      .max(8)
      .default([]),
    limits: z.object({ balance_dB: number.positive().optional(), gain_dB: number.positive().optional() }).default({}),
  }),
  change: z.object({ part: name, field: name, value: z.union([number, z.string().max(200), z.null()]) }).optional(),
  from: z.object({ model: name, version: name }).optional(),
});
const releaseQuestion = z.object({ revision: name.optional(), title: name.optional() });

/** Everything that can be asked of the prototype notebook, of plain data alone. */
export interface NotebookDesk {
  index(): NotebookIndexView;
  model(model: string): Promise<NotebookView>;
  outlooks(model: string): Promise<readonly OutlookView[]>;
  draft(question: unknown): Promise<DraftView>;
  trial(question: unknown): Promise<TrialView>;
  trialOutlook(question: unknown): Promise<readonly OutlookView[]>;
  release(model: string, version: string, question: unknown): Promise<ReleaseDraftView>;
}

export function notebookDesk(asked: NotebookCase): NotebookDesk {
  return {
    index: () => notebookIndex(asked),
    model: (model) => notebook(model, asked),
    outlooks: (model) => outlooks(model, asked),
    draft: (question) => readDraft(read(z.object({ text }), question).text, asked.calculate),
    trial: (question) => trial(read(trialQuestion, question) as TrialQuestion, asked),
    trialOutlook: (question) => trialOutlook(read(trialQuestion, question) as TrialQuestion, asked),
    release: (model, version, question) => releaseDraft(model, version, read(releaseQuestion, question ?? {}), asked),
  };
}

/** @throws BadInput naming the field */
function read<T extends z.ZodType>(schema: T, question: unknown): z.output<T> {
  const parsed = schema.safeParse(question);
  if (parsed.success) return parsed.data;
  throw refusal(parsed.error, question);
}
