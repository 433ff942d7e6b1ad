import type { Right } from "../../claims/index.ts";

/**
 * What a request takes. `open`: no session, since it is the page itself or the way in. `look`, `measure`, `release`,
 * `owner`: that right. What an entry takes beyond it (a concession, safety limits) is asked of the entry.
 */
export type Need = "open" | Exclude<Right, "nothing">;

/** Every route of the server. One that is not here is the owner's alone, and fails the test. */
export const needs: Readonly<Record<string, Need>> = {
  "GET /*": "open",
  // The handbook and the papers of the calculations hold nothing of the workshop.
  "GET /reading/*": "open",
  "GET /handbook": "open",
  "GET /handbook/pictures/:language/:file": "open",
  "GET /handbook/:language": "open",
  "GET /handbook/:language/": "open",
  "GET /handbook/:language/:chapter": "open",
  "GET /papers": "open",
  "GET /papers/:name": "open",

  "GET /api/session": "open",
  "POST /api/session": "open",
  "DELETE /api/session": "look",
  "DELETE /api/sessions": "look",
  "POST /api/session/passphrase": "look",
  "GET /api/people": "owner",
  "POST /api/people": "owner",
  "POST /api/people/:person": "owner",
  "POST /api/people/:person/passphrase": "owner",
  "DELETE /api/people/:person/sessions": "owner",
  "POST /api/people/:person/erase": "owner",
  "GET /api/customers": "release",
  "POST /api/customers/:customer": "release",
  "POST /api/customers/:customer/erase": "owner",

  "GET /api/openapi.json": "look",
  "GET /api/calculations": "look",
  "POST /api/calc/:name": "look",

  "GET /api/workshop": "look",
  "GET /api/units": "look",
  "GET /api/events": "look",
  "GET /api/morning": "look",
  "GET /api/codes/:code": "look",
  "GET /api/units/:unit": "look",
  "GET /api/units/:unit/conditions": "look",
  "GET /api/units/:unit/hum": "look",
  "GET /api/units/:unit/hum/under-way": "look",
  "GET /api/units/:unit/bench": "look",
  "GET /api/units/:unit/recordings/:recording/spectrum": "look",
  "GET /api/units/:unit/probe": "look",
  "GET /api/units/:unit/probe/windows": "look",
  "GET /api/units/:unit/probe/suspects": "look",
  "GET /api/shop": "look",
  "GET /api/orders": "look",
  "GET /api/orders/:order": "look",
  "GET /api/units/:unit/work": "look",
  "GET /api/units/:unit/pack": "look",
  "GET /api/units/:unit/return": "look",
  "GET /api/units/:unit/reserve": "look",
  "GET /api/units/:unit/safety": "look",
  "GET /api/units/:unit/case": "look",
  "GET /api/units/:unit/dossier.pdf": "look",
  "GET /api/units/:unit/dossier.html": "look",
  "GET /api/labels.pdf": "look",
  "POST /api/units/:unit/release": "release",
  "GET /api/trays": "look",
  "GET /api/trays/:batch": "look",
  "GET /api/trays/:batch/sets": "look",
  "GET /api/promises": "look",
  "GET /api/promises/ordering": "look",
  "GET /api/promises/kept": "look",
  "GET /api/promises/what-if": "look",
  "POST /api/promises/what-if": "look",
  "POST /api/promises/:order": "release",
  "GET /api/look-back": "look",
  "GET /api/notebook": "look",
  "GET /api/notebook/:model": "look",
  "GET /api/notebook/:model/outlook": "look",
  "POST /api/notebook/:model/versions/:version/release": "look",
  "POST /api/notebook-draft": "look",
  "POST /api/notebook-trial": "look",
  "POST /api/notebook-trial/outlook": "look",
  "GET /api/instruments": "look",
  "GET /api/instruments/links": "look",
  "GET /api/instruments/live": "look",
  "POST /api/instruments/links": "owner",
  "POST /api/instruments/:instrument/read": "measure",
  "POST /api/instruments/measurements/:measurement": "measure",
  "POST /api/instruments/:instrument/logs": "measure",
  "POST /api/instruments/logs/:log/stop": "measure",
  "GET /api/instruments/:instrument/supply": "measure",
  "POST /api/instruments/:instrument/supply": "measure",
  "POST /api/instruments/:instrument/output": "measure",
  "GET /api/exchange": "look",
  "GET /api/exchange/:what/:format": "look",
  // Names and addresses of customers are in it.
  "GET /api/exchange/workshop.zip": "owner",
  "POST /api/exchange/look": "measure",
  "POST /api/exchange/table": "measure",
  "GET /api/gauge-studies": "look",
  "GET /api/unit-charts": "look",
  "GET /api/safety-limits": "look",
  "GET /api/checks": "look",
  "GET /api/costs": "look",
  "GET /api/listening": "look",
  "POST /api/listening": "measure",
  "GET /api/listening/:series": "look",
  "GET /api/listening/:series/answers/:listener": "look",
  "GET /api/listening/:series/switching/:listener": "measure",
  "GET /api/soaks": "look",
  "GET /api/timber": "look",
  "GET /api/timber/early-weighing": "look",
  "GET /api/timber/cracks": "look",
  "GET /api/timber/cuts": "look",
  "GET /api/timber/runs": "look",
  "GET /api/timber/pieces/:piece": "look",
  "POST /api/photos": "measure",
  "GET /api/photos/:sha256": "look",
  "GET /api/waiting": "look",
  "POST /api/waiting/:file/aside": "measure",
  "POST /api/evidence": "measure",
  "POST /api/recordings": "measure",
};

/** Asked by whoever may look, and heavy: each person has so many at a time. */
export const heavy: ReadonlySet<string> = new Set([
  "POST /api/calc/:name",
  "POST /api/promises/what-if",
  "POST /api/exchange/look",
  "POST /api/exchange/table",
  "GET /api/exchange/:what/:format",
  "POST /api/notebook-trial",
  "POST /api/notebook-trial/outlook",
  "POST /api/notebook-draft",
  "POST /api/notebook/:model/versions/:version/release",
]);

/** What these write down is under whoever asked, said or not. */
export const acts: ReadonlySet<string> = new Set([
  "POST /api/evidence",
  "POST /api/units/:unit/release",
  "POST /api/promises/:order",
  "POST /api/instruments/links",
  "POST /api/instruments/measurements/:measurement",
  "POST /api/instruments/:instrument/logs",
  "POST /api/instruments/logs/:log/stop",
  "POST /api/instruments/:instrument/supply",
  "POST /api/instruments/:instrument/output",
]);

/** A route's name in the table; what answers HEAD is what answers GET. */
export function routeName(method: string, url: string): string {
  return `${method === "HEAD" ? "GET" : method} ${url}`;
}

export function needOf(route: string): Need {
  return needs[route] ?? "owner";
}
