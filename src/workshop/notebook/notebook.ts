import { changesBetween, type Figure, writeText } from "../../circuits/versions/index.ts";
import type { Evidence } from "../../claims/evidence.ts";
import type { Shop } from "../../claims/index.ts";
import { BadInput, quote } from "../../maths/badInput.ts";
import type { Calculate } from "../calculate.ts";
import { groupBy } from "../groupBy.ts";
import { blindResults } from "./blind.ts";
import { comparison } from "./comparison.ts";
import { checkText, draftView, partsOf, versionQuestion, type Written } from "./draft.ts";
import { outlook } from "./outlook.ts";
import { reportsOf } from "./reports.ts";
import type {
  BenchedView,
  ColumnView,
  DraftView,
  NotebookIndexView,
  NotebookView,
  OutlookView,
  PageView,
  SpreadView,
  TrialView,
} from "./views.ts";

type Version = Evidence<"version">;

type Figured =
  | { readonly state: "solved"; readonly figures: readonly Figure[]; readonly notes: readonly string[] }
  | { readonly state: "undecided"; readonly reason: string; readonly notes: readonly string[] };

export interface NotebookCase {
  readonly shop: Shop;
  readonly now: string;
  readonly calculate: Calculate;
}

/** Every model that has a version written down. */
export function notebookIndex({ shop, now }: Pick<NotebookCase, "shop" | "now">): NotebookIndexView {
  const byModel = groupBy([...shop.versions.values()], ({ body }) => body.model);
  const models = [...byModel].map(([model, versions]) => {
    const newest = versions.toSorted(byAge).at(-1)!;
    return {
      model,
      versions: versions.length,
      newest: { version: newest.body.version, at: newest.at, why: newest.body.why },
      revisions: revisionsOf(shop, model).map(({ revision }) => revision),
    };
  });
  return { now, models: models.sort((a, b) => Date.parse(b.newest.at) - Date.parse(a.newest.at)) };
}

const byAge = (a: Version, b: Version) => Date.parse(a.at) - Date.parse(b.at) || a.seq - b.seq;

/** Versions of a model in the order they were written down. */
function versionsOf(shop: Shop, model: string): readonly Version[] {
  const all = [...shop.versions.values()];
  const versions = all.filter(({ body }) => body.model === model).sort(byAge);
  if (versions.length > 0) return versions;
  const known = [...new Set(all.map(({ body }) => body.model))];
  throw new BadInput(
    "model",
    quote(model),
    known.length === 0 ? "this notebook is empty" : `models in the notebook are ${known.join(", ")}`,
    "check the name, or write its first version down",
  );
}

export function versionNamed(shop: Shop, model: string, version: string): Version {
  const versions = versionsOf(shop, model);
  const found = versions.find(({ body }) => body.version === version);
  if (found) return found;
  throw new BadInput(
    "version",
    quote(version),
    `versions of ${model} are ${versions.map(({ body }) => body.version).join(", ")}`,
    "name one of them",
  );
}

/** The versions of a model side by side, each told against the one it came from. */
export async function notebook(model: string, { shop, now, calculate }: NotebookCase): Promise<NotebookView> {
  const versions = versionsOf(shop, model);
  const names = versions.map(({ body }) => body.version);
  const columns = versions.map(({ body }, i) => {
    const before = body.from === undefined ? i - 1 : names.indexOf(body.from);
    return { name: body.version, netlist: body.netlist, benched: body, ...(before >= 0 && { against: before }) };
  });
  const currency = shop.shop?.currency;
  return {
    model,
    now,
    ...(currency !== undefined && { currency }),
    pages: versions.map((version) => pageView(shop, version)),
    blind: await blindResults(model, shop, calculate),
    reports: reportsOf(
      model,
      versions.map(({ body }) => body.version),
      shop,
    ),
    headphones: [...shop.headphones.keys()],
    ...(await spread(columns, calculate)),
  };
}

interface Drawn {
  readonly name: string;
  readonly netlist: Written;
  readonly benched: BenchedView;
  readonly against?: number;
}

async function spread(drawn: readonly Drawn[], calculate: Calculate): Promise<SpreadView> {
  const figured = await Promise.all(
    drawn.map(async ({ netlist, benched }): Promise<Figured> => {
      try {
        return await calculate<Figured>("circuits.version", versionQuestion(netlist, asBody(benched)));
      } catch (fault) {
        if (!(fault instanceof BadInput)) throw fault;
        return { state: "undecided", reason: fault.message, notes: [] };
      }
    }),
  );
  const columns = drawn.map(({ name, netlist, against }, i): ColumnView => {
    const answer = figured[i]!;
    const other = against === undefined ? undefined : drawn[against];
    return {
      name,
      ...(other && { against: other.name }),
      changes: other ? changesBetween(other.netlist, netlist) : [],
      ...(answer.state !== "solved" && { trouble: answer.reason }),
      notes: answer.notes,
    };
  });
  return {
    columns,
    groups: comparison(
      figured.map((answer, i) => {
        const { against } = drawn[i]!;
        return {
          ...(against !== undefined && { against }),
          figures: answer.state === "solved" ? answer.figures : [],
        };
      }),
    ),
  };
}

const asBody = ({ channels, loads }: BenchedView) => ({ channels: [...channels], loads: [...loads] });

function pageView(shop: Shop, { at, by, body }: Version): PageView {
  const { version, why, from, channels, loads, limits, netlist, model } = body;
  return {
    version,
    at,
    by,
    why,
    ...(from !== undefined && { from }),
    revisions: revisionsOf(shop, model)
      .filter(({ fromVersion }) => fromVersion === version)
      .map(({ revision }) => revision),
    text: writeText(netlist),
    channels,
    loads,
    limits,
  };
}

export function revisionsOf(shop: Shop, model: string) {
  return [...shop.models.values()].map(({ body }) => body).filter((body) => body.model === model);
}

/** Windows and yield of every version of a model, over the shop's own valves. */
export async function outlooks(model: string, { shop, calculate }: NotebookCase): Promise<readonly OutlookView[]> {
  return Promise.all(
    versionsOf(shop, model).map(({ body }) => outlook(body.version, body.netlist, body, shop, calculate)),
  );
}

export interface TrialQuestion {
  readonly text: string;
  readonly benched: BenchedView;
  /** A value of one part, put in place of its own. */
  readonly change?: { readonly part: string; readonly field: string; readonly value: number | string | null };
  /** The version that a draft is told against. */
  readonly from?: { readonly model: string; readonly version: string };
}

/** What a text says, for whoever is writing it. */
export const readDraft = (text: string, calculate: Calculate): Promise<DraftView> => draftView(text, calculate);

/** A draft, or a text with one value on trial, beside what it is told against. */
export async function trial(question: TrialQuestion, { shop, calculate }: NotebookCase): Promise<TrialView> {
  const tried = await drawTrial(question, shop, calculate);
  if (tried.state === "faulty") return tried;
  const { text, drawn } = tried;
  return { state: "good", text, spread: await spread(drawn, calculate) };
}

/** Windows and yield of a trial beside those of what it is told against; nothing where the text is at fault. */
export async function trialOutlook(question: TrialQuestion, asked: NotebookCase): Promise<readonly OutlookView[]> {
  const tried = await drawTrial(question, asked.shop, asked.calculate);
  if (tried.state === "faulty") return [];
  return Promise.all(
    tried.drawn.map(({ name, netlist, benched }) => outlook(name, netlist, benched, asked.shop, asked.calculate)),
  );
}

const draftName = "draft";
const trialName = "on trial";

async function drawTrial(
  { text, benched, change, from }: TrialQuestion,
  shop: Shop,
  calculate: Calculate,
): Promise<
  | { readonly state: "faulty"; readonly faults: Extract<TrialView, { state: "faulty" }>["faults"] }
  | { readonly state: "good"; readonly text: string; readonly drawn: readonly Drawn[] }
> {
  const own = await checkText(text, calculate);
  if (own.state === "faulty") return own;
  if (change) {
    const changed = writeText(withChange(own.netlist, change));
    const checked = await checkText(changed, calculate);
    if (checked.state === "faulty") return checked;
    const base = from?.version ?? draftName;
    return {
      state: "good",
      text: changed,
      drawn: [
        { name: base, netlist: own.netlist, benched },
        { name: trialName, netlist: checked.netlist, benched, against: 0 },
      ],
    };
  }
  const draft = { name: draftName, netlist: own.netlist, benched };
  if (!from) return { state: "good", text, drawn: [draft] };
  const { body } = versionNamed(shop, from.model, from.version);
  return {
    state: "good",
    text,
    drawn: [
      { name: body.version, netlist: body.netlist, benched: body },
      { ...draft, against: 0 },
    ],
  };
}

/** The net list with one value of one part put in, or taken out where it is null. */
function withChange(netlist: Written, { part, field, value }: NonNullable<TrialQuestion["change"]>): Written {
  const parts = partsOf(netlist);
  if (!parts.some(({ id }) => id === part)) {
    const known = parts.map(({ id }) => id).slice(0, 20);
    throw new BadInput("change.part", quote(part), `parts are ${known.join(", ")}`, "name a part of the net list");
  }
  return {
    ...netlist,
    parts: parts.map((one) => {
      if (one.id !== part) return one;
      const { [field]: _, ...rest } = one;
      return value === null ? rest : { ...one, [field]: value };
    }),
  };
}
