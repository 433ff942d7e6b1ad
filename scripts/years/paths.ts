interface Head {
  readonly units: readonly { readonly unit: string }[];
  readonly pieces: readonly string[];
}

/** Every screen there is, of a shop as it stands: with a unit in hand and one that left years ago, a new tray and an old. */
export async function pathsOf(address: string): Promise<readonly string[]> {
  const ask = async <T>(path: string) => (await (await fetch(new URL(path, address))).json()) as T;
  const { units, pieces } = await ask<Head>("/api/workshop");
  const names = units.map(({ unit }) => unit);
  const inHand = names.includes("0417") ? "0417" : names.at(-1)!;
  const old = names.find((unit) => unit.length === 5) ?? names[0]!;
  const { trays } = await ask<{ trays: readonly { readonly batch: string }[] }>("/api/trays");
  const { series = [] } = await ask<{ series?: readonly { readonly series: string }[] }>("/api/listening");
  const models = (await ask<{ models?: readonly { readonly model: string }[] }>("/api/notebook")).models ?? [];
  return [
    "/",
    "/promises",
    "/promises/what-if",
    "/promises/kept",
    "/look-back",
    "/units",
    ...[inHand, old].flatMap((unit) =>
      ["", "/hum", "/bench", "/probe", "/case", "/safety"].map((sheet) => `/unit/${unit}${sheet}`),
    ),
    "/safety",
    "/instruments",
    "/instruments/gauge",
    "/instruments/units",
    "/instruments/budget",
    "/costs",
    "/checks",
    "/listening",
    ...series.slice(0, 1).flatMap((one) => ["", "/answer", "/switch"].map((page) => `/listening/${one.series}${page}`)),
    "/soaks",
    "/timber",
    "/timber/weigh",
    "/timber/places",
    "/timber/cuts",
    ...pieces.slice(-1).map((piece) => `/timber/piece/${encodeURIComponent(piece)}`),
    "/valves",
    ...[trays[0], trays.at(-1)].flatMap((tray) =>
      tray ? ["", "/seller"].map((page) => `/valves/${encodeURIComponent(tray.batch)}${page}`) : [],
    ),
    "/notebook",
    ...models.slice(0, 1).map(({ model }) => `/notebook/${encodeURIComponent(model)}`),
    "/people",
    "/customers",
    "/exchange",
  ];
}
