export interface SourceStamp {
  readonly time_ms: number;
  readonly size_bytes: number;
  readonly sha256: string;
}
export const root: string;
export const entries: Readonly<Record<"command" | "calculationThread" | "pictureThread", string>>;
export function fittingBuild(home?: string): string | undefined;
export function stampOf(path: string, home?: string): { readonly bytes: Buffer; readonly stamp: SourceStamp };
export function load(entry: "command" | "calculationThread" | "pictureThread"): Promise<Record<string, unknown>>;
