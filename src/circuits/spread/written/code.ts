/**
 * Code for the stack machine that every browser and server carries, put together byte by byte: pairs of 64-bit numbers
 * (`v128`), each pair two units side by side.
 *
 * @source WebAssembly Core Specification 2.0 (W3C), binary format, and its vector instructions (from memory)
 */
export type Code = readonly (number | Code)[];

/** Unsigned number in groups of seven bits, lowest first. */
export function unsigned(value: number): number[] {
  const out: number[] = [];
  let rest = value;
  do {
    out.push((rest & 0x7f) | (rest > 0x7f ? 0x80 : 0));
    rest = Math.floor(rest / 128);
  } while (rest > 0);
  return out;
}

function signed(value: number): number[] {
  const out: number[] = [];
  let rest = value;
  for (;;) {
    const low = rest & 0x7f;
    rest >>= 7;
    const isLast = (rest === 0 && (low & 0x40) === 0) || (rest === -1 && (low & 0x40) !== 0);
    out.push(isLast ? low : low | 0x80);
    if (isLast) return out;
  }
}

const vector = (opcode: number): number[] => [0xfd, ...unsigned(opcode)];
const binary = (opcode: number) => {
  const bytes = vector(opcode);
  return (a: Code, b: Code): Code => [a, b, bytes];
};
const unary = (opcode: number) => {
  const bytes = vector(opcode);
  return (a: Code): Code => [a, bytes];
};

export const add = binary(0xf0);
export const sub = binary(0xf1);
export const mul = binary(0xf2);
export const div = binary(0xf3);
/** Not a number where either is none. */
export const greater = binary(0xf5);
/** b where a is less than b, else a: one instruction on all processors, but a number where b is none. */
export const pickGreater = binary(0xf7);
export const pickLess = binary(0xf6);
export const isLess = binary(0x49);
export const isMore = binary(0x4a);
export const isAtMost = binary(0x4b);
export const both = binary(0x4e);
export const either = binary(0x50);
export const absolute = unary(0xec);
export const negative = unary(0xed);
export const root = unary(0xef);
export const nearest = unary(0x94);
export const addWhole = binary(0xce);
export const subWhole = binary(0xd1);
/** `yes` where the mask is set, else `no`. */
export const choose = (mask: Code, yes: Code, no: Code): Code => [yes, no, mask, vector(0x52)];
export const shiftUp = (a: Code, bits: number): Code => [a, whole(bits), vector(0xcb)];
export const shiftDown = (a: Code, bits: number): Code => [a, whole(bits), vector(0xcc)];
export const anyTrue = unary(0x53);
export const allTrue = unary(0xc3);

/** The same 64 bits twice. */
function twice(bits: DataView): Code {
  const eight = Array.from({ length: 8 }, (_, i) => bits.getUint8(i));
  return [...vector(0x0c), ...eight, ...eight];
}
const numbers = new Map<number, Code>();
export function number(value: number): Code {
  const known = numbers.get(value);
  if (known) return known;
  const view = new DataView(new ArrayBuffer(8));
  view.setFloat64(0, value, true);
  const code = twice(view);
  // The lines hold a few dozen numbers in all: those of formulas, none of a circuit's.
  numbers.set(value, code);
  return code;
}
export function bits(value: bigint): Code {
  const view = new DataView(new ArrayBuffer(8));
  view.setBigInt64(0, value, true);
  return twice(view);
}
export const whole = (value: number): Code => [0x41, ...signed(value)];

/** A pair from an address counted from `base`. */
export const load = (base: Code, offset: number): Code => [base, vector(0x00), 3, unsigned(offset)];
/** One number, twice. */
export const loadBoth = (base: Code, offset: number): Code => [base, vector(0x0a), 3, unsigned(offset)];
export const store = (base: Code, offset: number, value: Code): Code => [
  base,
  value,
  vector(0x0b),
  3,
  unsigned(offset),
];

/** A local that can be written again. */
export interface Variable {
  readonly get: Code;
  set(value: Code): void;
}

/** The lines of one function, with its locals. */
export class Lines {
  private bytes = new Uint8Array(1024);
  private length = 0;
  private readonly wholes: number;
  private pairs = 0;
  private readonly parameters: number;

  /** @param wholes  32-bit locals, which come first after the parameters */
  constructor(parameters: number, wholes: number) {
    this.parameters = parameters;
    this.wholes = wholes;
  }
  add(code: Code): void {
    for (let i = 0; i < code.length; i++) {
      const part = code[i]!;
      if (typeof part === "number") this.push(part);
      else this.add(part);
    }
  }
  private push(byte: number): void {
    if (this.length === this.bytes.length) {
      const longer = new Uint8Array(2 * this.length);
      longer.set(this.bytes);
      this.bytes = longer;
    }
    this.bytes[this.length++] = byte;
  }
  variable(start: Code): Variable {
    const index = unsigned(this.parameters + this.wholes + this.pairs++);
    const put = [0x21, ...index];
    const set = (value: Code) => {
      this.add(value);
      this.add(put);
    };
    set(start);
    return { get: [0x20, ...index], set };
  }
  /** Works a value out once, for use more than once. */
  keep(value: Code): Code {
    return this.variable(value).get;
  }
  /** The function as a module holds it, its length first. */
  body(): Uint8Array {
    const groups = [
      [this.wholes, 0x7f],
      [this.pairs, 0x7b],
    ].filter(([count]) => count! > 0);
    const locals = [...unsigned(groups.length), ...groups.flatMap(([count, type]) => [...unsigned(count!), type!])];
    const head = [...unsigned(locals.length + this.length + 1), ...locals];
    const all = new Uint8Array(head.length + this.length + 1);
    all.set(head);
    all.set(this.bytes.subarray(0, this.length), head.length);
    all[all.length - 1] = 0x0b;
    return all;
  }
}

const text = (value: string): number[] => [...unsigned(value.length), ...[...value].map((c) => c.charCodeAt(0))];
const section = (id: number, content: readonly number[]): number[] => [id, ...unsigned(content.length), ...content];
const list = (items: readonly (readonly number[])[]): number[] => [...unsigned(items.length), ...items.flat()];

/** The function that is given from outside. */
export const GIVEN_FUNCTION = 0;

/** A module with a memory and a function `(number, number) → nothing` given from outside, and `run` of these lines. */
export function moduleBytes(run: Lines): Uint8Array<ArrayBuffer> {
  const i32 = 0x7f;
  const types = [
    [0x60, 0, 0],
    [0x60, 2, i32, i32, 0],
  ];
  const imports = [
    [...text("unit"), ...text("memory"), 0x02, 0x00, 1],
    [...text("unit"), ...text("curve"), 0x00, 1],
  ];
  const body = run.body();
  const before = [
    ...[0x00, 0x61, 0x73, 0x6d, 1, 0, 0, 0],
    ...section(1, list(types)),
    ...section(2, list(imports)),
    ...section(3, list([[0]])),
    ...section(7, list([[...text("run"), 0x00, 1]])),
    ...[10, ...unsigned(body.length + 1), 1],
  ];
  const bytes = new Uint8Array(before.length + body.length);
  bytes.set(before);
  bytes.set(body, before.length);
  return bytes;
}
