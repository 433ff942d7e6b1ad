export const shell: string;
export function findChromium(): string | undefined;
