export { emcDoubt_pct, emcNotes, emcRange, equilibriumMoisture_pct } from "./emc.ts";
