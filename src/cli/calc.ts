import { dirname, isAbsolute, resolve } from "node:path";
import { createInterface } from "node:readline";
import { z } from "zod";
import { type Answer, answer, unknownName } from "../calculations/answer.ts";
import type { Surroundings } from "../calculations/calculation.ts";
import { calculationNamed, calculations } from "../calculations/list.ts";
import { BadInput, quote } from "../maths/badInput.ts";
import { openWavFile, readWavFile } from "../store/wavFile.ts";
import { readText } from "./readText.ts";

interface CalcOptions {
  readonly schema?: boolean;
  readonly in?: string;
  readonly batch?: boolean;
  readonly json?: boolean;
}

/** `stillglow calc`: list, schema, one answer, or a batch of answers. Sets the exit status; prints no stack trace. */
export async function calc(name: string | undefined, options: CalcOptions): Promise<void> {
  if (options.batch) return batch();
  if (name === undefined) return list(options.json ?? false);
  const paper = await calculationNamed(name);
  if (!paper) return refuse(name, unknownName(name));
  if (options.schema) {
    const schema = {
      input: z.toJSONSchema(paper.input, { io: "input" }),
      output: z.toJSONSchema(paper.output, { io: "output", unrepresentable: "any" }),
    };
    return print(schema);
  }
  const input = readInput(options.in);
  if (input instanceof BadInput) return refuse(name, input);
  show(
    name,
    await answer(name, input, surroundings(options.in === undefined ? process.cwd() : dirname(resolve(options.in)))),
  );
}

async function list(asJson: boolean): Promise<void> {
  const papers = await Promise.all(Object.keys(calculations).map((name) => calculationNamed(name)));
  if (asJson) return print(papers.map((paper) => ({ name: paper!.name, title: paper!.title })));
  const width = Math.max(...papers.map((paper) => paper!.name.length)) + 2;
  process.stdout.write(papers.map((paper) => `${paper!.name.padEnd(width)}${paper!.title}\n`).join(""));
}

async function batch(): Promise<void> {
  const here = surroundings(process.cwd());
  for await (const line of createInterface({ input: process.stdin, crlfDelay: Number.POSITIVE_INFINITY })) {
    process.stdout.write(`${JSON.stringify(await answerLine(line, here))}\n`);
  }
}

async function answerLine(line: string, here: Surroundings): Promise<Answer> {
  try {
    const question: unknown = parse(line);
    const fault = question instanceof BadInput ? question : faultOfQuestion(question);
    if (fault) return { ok: false, error: { path: fault.path, message: fault.message } };
    const { name, input } = question as { name: string; input: unknown };
    return await answer(name, input, here);
  } catch (error) {
    return {
      ok: false,
      error: {
        path: "",
        message: `the calculation failed by a fault of its own (${(error as Error).message.slice(0, 200)}); nothing was computed; please report this input`,
      },
    };
  }
}

function faultOfQuestion(question: unknown): BadInput | undefined {
  const form = 'an object {"name": …, "input": {…}} on each line';
  if (question === null || typeof question !== "object" || Array.isArray(question))
    return new BadInput("", quote(question), form, "write one question a line");
  const { name, input } = question as Record<string, unknown>;
  if (typeof name !== "string")
    return new BadInput("name", quote(name), "the name of a calculation", "take one from the list of 'stillglow calc'");
  if (input === undefined) return new BadInput("input", "nothing", "an object", "add the calculation's input");
  return undefined;
}

function readInput(file: string | undefined): unknown {
  try {
    return parse(readText(file));
  } catch (error) {
    if (error instanceof BadInput) return BadInput.at("", error);
    throw error;
  }
}

function parse(text: string): unknown {
  try {
    return JSON.parse(text.replace(/^\uFEFF/, ""));
  } catch (error) {
    const why = (error as Error).message.replace(/\s+/g, " ").slice(0, 160);
    return new BadInput(
      "",
      text.trim() === "" ? "nothing" : quote(text.trim().slice(0, 60)),
      "one JSON object",
      `mend the JSON (${why})`,
    );
  }
}

function surroundings(folder: string): Surroundings {
  const found = (path: string) => (isAbsolute(path) ? path : resolve(folder, path));
  return {
    recording: (path, field) => readWavFile(found(path), path, field),
    stream: (path, field) => openWavFile(found(path), path, field),
  };
}

function show(name: string, given: Answer): void {
  if (given.ok) {
    print(given.output);
    return;
  }
  process.stderr.write(
    `stillglow: ${name}: ${given.error.path === "" ? "input" : given.error.path}: ${given.error.message}\n`,
  );
  process.exitCode = 2;
}

function refuse(name: string, error: BadInput): void {
  show(name, { ok: false, error: { path: error.path, message: error.message } });
}

function print(value: unknown): void {
  process.stdout.write(`${JSON.stringify(value)}\n`);
}
