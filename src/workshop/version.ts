import manifest from "../../package.json" with { type: "json" };

/** The version of the calculations, kept with every release and finding. */
export const version: string = manifest.version;
