export { type Guarded, guard, type Judged, type Verdict } from "./guard.ts";
