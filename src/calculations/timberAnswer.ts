/** Whatever a trade function answers, its read-only lists made plain ones, as a schema's type wants them. */
export type Plain<T> = T extends readonly (infer V)[]
  ? Plain<V>[]
  : T extends object
    ? { -readonly [K in keyof T]: Plain<T[K]> }
    : T;

export function plainCopy<T>(value: T): Plain<T> {
  return structuredClone(value) as Plain<T>;
}
