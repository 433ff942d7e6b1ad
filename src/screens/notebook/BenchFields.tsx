import { Field, numberError } from "../common/fields.tsx";
import { Pick } from "../common/Pick.tsx";
import type { TypedBench } from "./benched.ts";
import { draftWords } from "./messages.ts";

interface Props {
  readonly bench: TypedBench;
  readonly onChange: (bench: TypedBench) => void;
  readonly sources: readonly string[];
  readonly nodes: readonly string[];
}

/** What stands there is offered even where the drawing has no such name. */
const withOwn = (value: string, known: readonly string[]) =>
  value === "" || known.includes(value) ? known : [value, ...known];

const put = <T,>(list: readonly T[], i: number, part: Partial<T>): readonly T[] =>
  list.map((one, k) => (k === i ? { ...one, ...part } : one));

/** Where the signal enters and leaves, what the outputs drive, and what a good unit keeps. */
export function BenchFields({ bench, onChange, sources, nodes }: Props) {
  const { channels, loads } = bench;
  const optional = (typed: string) => numberError(typed, false);
  return (
    <>
      <fieldset className="bench-group">
        <legend>{draftWords.channels}</legend>
        {channels.map((ends, i) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: a line is its place
          <div className="fields bench-line" key={i}>
            <Field
              label={draftWords.channel}
              value={ends.channel}
              onChange={(channel) => onChange({ ...bench, channels: put(channels, i, { channel }) })}
            />
            <Pick
              label={draftWords.input}
              value={ends.input}
              none="–"
              options={withOwn(ends.input, sources)}
              onChange={(input) => onChange({ ...bench, channels: put(channels, i, { input }) })}
            />
            <Pick
              label={draftWords.output}
              value={ends.output}
              none="–"
              options={withOwn(ends.output, nodes)}
              onChange={(output) => onChange({ ...bench, channels: put(channels, i, { output }) })}
            />
          </div>
        ))}
        <button
          type="button"
          onClick={() => onChange({ ...bench, channels: [...channels, { channel: "", input: "", output: "" }] })}
        >
          {draftWords.moreChannels}
        </button>
      </fieldset>
      <fieldset className="bench-group">
        <legend>{draftWords.loads}</legend>
        {loads.map((load, i) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: a line is its place
          <div className="fields bench-line" key={i}>
            <Field
              label={draftWords.load}
              value={load.name}
              onChange={(name) => onChange({ ...bench, loads: put(loads, i, { name }) })}
            />
            <Field
              label={draftWords.ohm}
              value={load.ohm}
              unit="Ω"
              numeric
              error={optional(load.ohm)}
              onChange={(ohm) => onChange({ ...bench, loads: put(loads, i, { ohm }) })}
            />
            <Field
              label={draftWords.level}
              hint={draftWords.levelHint}
              value={load.level}
              unit="V"
              numeric
              error={optional(load.level)}
              onChange={(level) => onChange({ ...bench, loads: put(loads, i, { level }) })}
            />
          </div>
        ))}
        <button
          type="button"
          onClick={() => onChange({ ...bench, loads: [...loads, { name: "", ohm: "", level: "" }] })}
        >
          {draftWords.moreLoads}
        </button>
      </fieldset>
      <fieldset className="bench-group">
        <legend>{draftWords.limits}</legend>
        <div className="fields">
          <Field
            label={draftWords.balance}
            value={bench.balance}
            unit="dB"
            numeric
            error={optional(bench.balance)}
            onChange={(balance) => onChange({ ...bench, balance })}
          />
          <Field
            label={draftWords.gain}
            value={bench.gain}
            unit="dB"
            numeric
            error={optional(bench.gain)}
            onChange={(gain) => onChange({ ...bench, gain })}
          />
        </div>
      </fieldset>
    </>
  );
}
