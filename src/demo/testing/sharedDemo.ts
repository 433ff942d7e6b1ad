import { deserialize, serialize } from "node:v8";
import { type Demo, makeDemo } from "../index.ts";
import { onceForAll } from "./onceForAll.ts";

/** The demo of the first seed, made once for all test files of a run. */
export function sharedDemo(): Demo {
  return deserialize(onceForAll("demo.v8", () => serialize(makeDemo()))) as Demo;
}
