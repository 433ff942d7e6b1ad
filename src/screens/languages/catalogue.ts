import type * as common from "../common/messages.ts";
import type * as notebook from "../notebook/messages.ts";
import type * as probe from "../probe/messages.ts";
import type * as shell from "../shell/messages.ts";
import type * as unit from "../unit/messages.ts";
import type * as units from "../units/messages.ts";
import type * as valves from "../valves/messages.ts";
import type { Partly } from "./spoken.ts";

/** Messages of every screen, as a language's file holds them; a screen or message left out is said in English. */
export type Catalogue = {
  readonly common?: Partly<typeof common>;
  readonly notebook?: Partly<typeof notebook>;
  readonly probe?: Partly<typeof probe>;
  readonly shell?: Partly<typeof shell>;
  readonly unit?: Partly<typeof unit>;
  readonly units?: Partly<typeof units>;
  readonly valves?: Partly<typeof valves>;
};
