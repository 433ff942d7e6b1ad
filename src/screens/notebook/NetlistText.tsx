import { useId, useRef } from "react";
import type { FaultView } from "../../workshop/notebook/views.ts";
import { draftWords } from "./messages.ts";

interface Props {
  readonly text: string;
  readonly onChange: (text: string) => void;
  readonly faults: readonly FaultView[];
}

/** A net list being written, its lines numbered, and what is wrong with it by line; a fault leads to its line. */
export function NetlistText({ text, onChange, faults }: Props) {
  const id = useId();
  const field = useRef<HTMLTextAreaElement>(null);
  const gutter = useRef<HTMLDivElement>(null);
  const lines = text.split("\n");
  const wrong = new Set(faults.map(({ line }) => line));
  const goTo = (line: number) => {
    const here = field.current;
    if (!here) return;
    const start = lines.slice(0, line - 1).reduce((sum, one) => sum + one.length + 1, 0);
    here.focus();
    here.setSelectionRange(start, start + (lines[line - 1]?.length ?? 0));
    here.scrollTop = Math.max(0, (line - 4) * Number.parseFloat(getComputedStyle(here).lineHeight));
  };
  return (
    <div className="field netlist">
      <label htmlFor={id}>{draftWords.text}</label>
      <div className="netlist-page">
        <div className="netlist-lines" ref={gutter} aria-hidden="true">
          {lines.map((_, i) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: a line is its number
            <span key={i} className={wrong.has(i + 1) ? "netlist-wrong" : undefined}>
              {i + 1}
            </span>
          ))}
        </div>
        <textarea
          id={id}
          ref={field}
          value={text}
          rows={Math.min(24, Math.max(8, lines.length + 1))}
          wrap="off"
          spellCheck={false}
          autoComplete="off"
          aria-invalid={faults.length > 0 ? true : undefined}
          aria-describedby={faults.length > 0 ? `${id}-faults` : undefined}
          onChange={(event) => onChange(event.target.value)}
          onScroll={(event) => {
            if (gutter.current) gutter.current.scrollTop = event.currentTarget.scrollTop;
          }}
        />
      </div>
      <div id={`${id}-faults`} aria-live="polite">
        {faults.length > 0 && (
          <>
            <p className="netlist-count">{draftWords.faults(faults.length)}</p>
            <ul className="faults">
              {faults.map(({ line, part, message }) => (
                <li key={`${line} ${message}`}>
                  <button type="button" onClick={() => goTo(line)}>
                    {draftWords.line(line, part)}
                  </button>
                  <span>{message}</span>
                </li>
              ))}
            </ul>
          </>
        )}
      </div>
    </div>
  );
}
