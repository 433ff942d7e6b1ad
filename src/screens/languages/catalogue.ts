import type * as bench from "../bench/messages.ts";
import type * as checks from "../checks/messages.ts";
import type * as common from "../common/messages.ts";
import type * as costs from "../costs/messages.ts";
import type * as exchange from "../exchange/messages.ts";
import type * as hum from "../hum/messages.ts";
import type * as instrumentLinks from "../instruments/linkMessages.ts";
import type * as instruments from "../instruments/messages.ts";
import type * as instrumentStudies from "../instruments/studyMessages.ts";
import type * as listening from "../listening/messages.ts";
import type * as listeningSeries from "../listening/seriesMessages.ts";
import type * as lookback from "../lookback/messages.ts";
import type * as morning from "../morning/messages.ts";
import type * as notebook from "../notebook/messages.ts";
import type * as people from "../people/messages.ts";
import type * as probe from "../probe/messages.ts";
import type * as kept from "../promises/keptMessages.ts";
import type * as promises from "../promises/messages.ts";
import type * as whatIf from "../promises/whatIfMessages.ts";
import type * as safety from "../safety/messages.ts";
import type * as shell from "../shell/messages.ts";
import type * as soaks from "../soaks/messages.ts";
import type * as timberForms from "../timber/formMessages.ts";
import type * as timber from "../timber/messages.ts";
import type * as unit from "../unit/messages.ts";
import type * as units from "../units/messages.ts";
import type * as valves from "../valves/messages.ts";
import type { Partly } from "./spoken.ts";

interface Screens {
  readonly bench: typeof bench;
  readonly checks: typeof checks;
  readonly common: typeof common;
  readonly costs: typeof costs;
  readonly exchange: typeof exchange;
  readonly hum: typeof hum;
  readonly instruments: typeof instruments & typeof instrumentLinks & typeof instrumentStudies;
  readonly kept: typeof kept;
  readonly listening: typeof listening & typeof listeningSeries;
  readonly lookback: typeof lookback;
  readonly morning: typeof morning;
  readonly notebook: typeof notebook;
  readonly people: typeof people;
  readonly probe: typeof probe;
  readonly promises: typeof promises;
  readonly safety: typeof safety;
  readonly shell: typeof shell;
  readonly soaks: typeof soaks;
  readonly timber: typeof timber & typeof timberForms;
  readonly unit: typeof unit;
  readonly units: typeof units;
  readonly valves: typeof valves;
  readonly whatIf: typeof whatIf;
}

/** Messages of every screen, as a language's file holds them; a screen or message left out is said in English. */
export type Catalogue = { readonly [Screen in keyof Screens]?: Partly<Screens[Screen]> };
