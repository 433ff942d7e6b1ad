import type { Workshop } from "../workshop/workshop.ts";
import { checksWords, costsWords, dayWords, instrumentWords, limitWords, safetyWords } from "./officeWords.ts";
import { soakWords } from "./soakWords.ts";
import { unitChartWords } from "./studyWords.ts";
import { type FolderOption, openToRead } from "./workshopFolder.ts";

interface OfficeOptions extends FolderOption {
  readonly json?: boolean;
}

const views = {
  day: (workshop: Workshop) => workshop.morning().then((view) => ({ view, words: dayWords(view) })),
  instruments: (workshop: Workshop) => workshop.instruments().then((view) => ({ view, words: instrumentWords(view) })),
  charts: (workshop: Workshop) => workshop.unitCharts().then((view) => ({ view, words: unitChartWords(view) })),
  costs: (workshop: Workshop) => workshop.costs().then((view) => ({ view, words: costsWords(view) })),
  soaks: (workshop: Workshop) => workshop.soaks().then((view) => ({ view, words: soakWords(view) })),
  checks: (workshop: Workshop) => workshop.checks().then((view) => ({ view, words: checksWords(view) })),
} as const;

/** `stillglow day`, `instruments`, `charts`, `costs`, `checks`: the office's pages, in words or as JSON. */
export function office(page: keyof typeof views, options: OfficeOptions): Promise<void> {
  return printed(options, views[page]);
}

/** `stillglow safety [UNIT]`: a unit's safety sheet; without a unit the limits adopted for each market. */
export function safety(unit: string | undefined, options: OfficeOptions): Promise<void> {
  return printed(options, async (workshop) => {
    if (unit === undefined) {
      const view = workshop.safetyLimits();
      return { view, words: limitWords(view) };
    }
    const view = workshop.safety(unit);
    return { view, words: safetyWords(view) };
  });
}

async function printed(
  options: OfficeOptions,
  ask: (workshop: Workshop) => Promise<{ readonly view: unknown; readonly words: string }>,
): Promise<void> {
  const workshop = await openToRead(options);
  try {
    const { view, words } = await ask(workshop);
    process.stdout.write(`${options.json ? JSON.stringify(view) : words}\n`);
  } finally {
    await workshop.close();
  }
}
