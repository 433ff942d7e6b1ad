import type * as bench from "../bench/messages.ts";
import type * as checks from "../checks/messages.ts";
import type * as common from "../common/messages.ts";
import type * as trade from "../common/tradeMessages.ts";
import type * as costs from "../costs/messages.ts";
import type * as exchange from "../exchange/messages.ts";
import type * as hum from "../hum/messages.ts";
import type * as links from "../instruments/linkMessages.ts";
import type * as instruments from "../instruments/messages.ts";
import type * as studies from "../instruments/studyMessages.ts";
import type * as listening from "../listening/messages.ts";
import type * as series from "../listening/seriesMessages.ts";
import type * as lookback from "../lookback/messages.ts";
import type * as morning from "../morning/messages.ts";
import type * as notebook from "../notebook/messages.ts";
import type * as orders from "../orders/messages.ts";
import type * as door from "../people/doorMessages.ts";
import type * as people from "../people/messages.ts";
import type * as probe from "../probe/messages.ts";
import type * as kept from "../promises/keptMessages.ts";
import type * as promises from "../promises/messages.ts";
import type * as whatIf from "../promises/whatIfMessages.ts";
import type * as safety from "../safety/messages.ts";
import type * as shell from "../shell/messages.ts";
import type * as shop from "../shop/messages.ts";
import type * as soaks from "../soaks/messages.ts";
import type * as supply from "../supply/messages.ts";
import type * as timberForms from "../timber/formMessages.ts";
import type * as timber from "../timber/messages.ts";
import type * as unit from "../unit/messages.ts";
import type * as units from "../units/messages.ts";
import type * as valves from "../valves/messages.ts";
import type * as work from "../work/messages.ts";
import type { Partly } from "./spoken.ts";

interface Tables {
  readonly bench: typeof bench;
  readonly checks: typeof checks;
  readonly common: typeof common;
  readonly costs: typeof costs;
  readonly door: typeof door;
  readonly exchange: typeof exchange;
  readonly hum: typeof hum;
  readonly instruments: typeof instruments;
  readonly kept: typeof kept;
  readonly links: typeof links;
  readonly listening: typeof listening;
  readonly lookback: typeof lookback;
  readonly morning: typeof morning;
  readonly notebook: typeof notebook;
  readonly orders: typeof orders;
  readonly people: typeof people;
  readonly probe: typeof probe;
  readonly promises: typeof promises;
  readonly safety: typeof safety;
  readonly series: typeof series;
  readonly shell: typeof shell;
  readonly shop: typeof shop;
  readonly soaks: typeof soaks;
  readonly studies: typeof studies;
  readonly supply: typeof supply;
  readonly timber: typeof timber;
  readonly timberForms: typeof timberForms;
  readonly trade: typeof trade;
  readonly unit: typeof unit;
  readonly units: typeof units;
  readonly valves: typeof valves;
  readonly whatIf: typeof whatIf;
  readonly work: typeof work;
}

/** A table of messages: one file beside the screens in English, one of this name in each language's folder. */
export type TableName = keyof Tables;

/** The messages of a table, as a language's file holds them; what is left out is said in English. */
export type Words<Table extends TableName> = Partly<Tables[Table]>;
