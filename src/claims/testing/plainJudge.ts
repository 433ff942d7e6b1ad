import type { Evidence, Model, Requirement, Thing } from "../evidence.ts";

/**
 * The rules of closing a claim, reckoned a second time the long way: every entry looked at for every claim, nothing
 * indexed, nothing shared with the code under test but the shapes of evidence.
 */
export function plainStates(
  model: Model,
  entries: readonly Evidence[],
  unit: string,
): readonly { readonly claim: string; readonly closed: boolean }[] {
  const inOrder = entries.toSorted((a, b) => Date.parse(a.at) - Date.parse(b.at) || a.seq - b.seq);
  const place = new Map(inOrder.map((entry, i) => [entry.id, i]));
  const byId = new Map(entries.map((entry) => [entry.id, entry]));
  const replaced = new Set(
    entries.flatMap(({ body }) => ("supersedes" in body && body.supersedes ? [body.supersedes] : [])),
  );
  const fitted: Record<string, string> = {};
  for (const { body } of inOrder) {
    if ((body.kind === "unit" || body.kind === "rework") && body.unit === unit) Object.assign(fitted, body.fitted);
  }

  const parts = (model.netlist.parts as { id: string; stage?: string; channel?: string; supply?: string }[]).flatMap(
    (part) =>
      (part.channel ? [part.channel] : model.channels).map((channel): Thing => {
        const position = model.positions.find((p) => Object.values(p.sections).includes(part.id))?.position;
        return {
          part: part.id,
          channel,
          ...(part.stage && { stage: part.stage }),
          ...(part.supply && { supply: part.supply }),
          ...(position && { position }),
        };
      }),
  );
  const has = (thing: Thing, named: Thing) =>
    Object.entries(named).every(([k, v]) => (thing as Record<string, string>)[k] === v);
  const touches = (rework: Evidence, restsOn: readonly Thing[]) => {
    if (rework.body.kind !== "rework" || rework.body.unit !== unit) return false;
    const named: Thing[] = [
      ...rework.body.touched,
      ...Object.keys(rework.body.fitted ?? {}).map((position) => ({ position })),
    ];
    const all = named.flatMap((thing) => [thing, ...parts.filter((part) => has(part, thing))]);
    return restsOn.some((rest) => all.some((thing) => has(thing, rest)));
  };

  const trialState = ({ body }: Evidence) => {
    if (body.kind !== "trial") throw new Error("not a trial");
    const off = Math.abs(body.value - 10);
    return off + body.doubt <= 0.1 ? "good" : off - body.doubt >= 0.1 ? "failed" : "unclear";
  };
  const trusts = (reading: Evidence, instrument: string) => {
    const trials = inOrder.filter(
      ({ id, body }) => body.kind === "trial" && body.instrument === instrument && !replaced.has(id),
    );
    const before = trials.filter(({ id }) => place.get(id)! < place.get(reading.id)!);
    const next = trials
      .slice(before.length)
      .map(trialState)
      .find((state) => state !== "unclear");
    const decided = before.map(trialState).filter((state) => state !== "unclear");
    if (decided.at(-1) === "failed" || next === "failed") return false;
    return next === "good" || (before.length > 0 && trialState(before.at(-1)!) === "good");
  };

  /** Everything under an entry, itself first; undefined when something under it is missing or was replaced. */
  const under = (id: string): Evidence[] | undefined => {
    const entry = byId.get(id);
    if (!entry || replaced.has(id)) return undefined;
    if (entry.body.kind === "reading") return trusts(entry, entry.body.instrument) ? [entry] : undefined;
    if (entry.body.kind !== "finding") return [entry];
    const below = entry.body.from.map(under);
    return below.some((b) => b === undefined) ? undefined : [entry, ...below.flatMap((b) => b!)];
  };

  return model.claims.map((spec) => {
    const reworks = inOrder.filter((entry) => touches(entry, spec.restsOn));
    const answers = (need: Requirement) => (entry: Evidence) => {
      const { body } = entry;
      if ((body.kind !== "reading" && body.kind !== "finding") || replaced.has(entry.id)) return false;
      const s = body.subject;
      const whose =
        need.of === "valve"
          ? s.valve !== undefined && s.valve === fitted[need.position!]
          : s.unit === unit && s.valve === undefined;
      return (
        whose &&
        body.quantity === need.quantity &&
        s.section === need.section &&
        s.channel === need.channel &&
        s.point === need.point
      );
    };
    const verdict = (need: Requirement, entry: Evidence): "in" | "out" | "unclear" => {
      const below = under(entry.id);
      if (!below || (entry.body.kind !== "reading" && entry.body.kind !== "finding")) return "unclear";
      const undone = below
        .filter(({ body }) => (body.kind === "reading" || body.kind === "finding") && body.subject.unit !== undefined)
        .some((e) => reworks.some((r) => place.get(e.id)! < place.get(r.id)! || (spec.safety && e.seq < r.seq)));
      if (undone) return "unclear";
      const { value, doubt } = entry.body;
      const { low = -1e99, high = 1e99 } = need;
      const grain = 1e-9 * Math.max(Math.abs(value), 1e-9);
      if (value - low >= doubt - grain && high - value >= doubt - grain && value >= low && value <= high)
        return doubt > 0 || need.counted ? "in" : "unclear";
      return low - value >= doubt - grain || value - high >= doubt - grain ? "out" : "unclear";
    };
    const figures = spec.requires.map((need) => {
      const all = inOrder.filter(answers(need));
      const newest = all.at(-1);
      if (spec.safety && all.some((entry) => verdict(need, entry) === "out"))
        return { state: "out", entry: all.findLast((entry) => verdict(need, entry) === "out")! };
      return { state: newest ? verdict(need, newest) : "unclear", entry: newest };
    });
    const proven = figures.every(({ state }) => state === "in");
    const conceded =
      !spec.safety &&
      entries.some(
        (c) =>
          c.body.kind === "concession" &&
          c.body.unit === unit &&
          c.body.claim === spec.claim &&
          c.by === "owner" &&
          !reworks.some((r) => place.get(c.id)! < place.get(r.id)! || c.seq < r.seq) &&
          !figures.some(({ state, entry }) => state === "out" && entry!.seq > c.seq),
      );
    return { claim: spec.claim, closed: proven || conceded };
  });
}
