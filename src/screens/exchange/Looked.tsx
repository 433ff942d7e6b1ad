import { Trouble } from "../common/api.ts";
import type { Fault, Looked } from "./ask.ts";
import { words } from "./messages.ts";

const mostFaults = 12;
const mostShown = 3;

/** Every fault by its row and column, so that the file can be mended in one go. */
export function Faults({ faults }: { readonly faults: readonly Fault[] }) {
  return (
    <div role="status" className="exchange-faults">
      <h3>{words.faults(faults.length)}</h3>
      <p className="small">{words.faultsLead}</p>
      <ul>
        {faults.slice(0, mostFaults).map(({ line, column = "", given, allowed, mend }) => (
          <li key={`${line} ${column}`}>
            <b>{words.fault(line, column)}:</b> {given}; {allowed}; {mend}
          </li>
        ))}
        {faults.length > mostFaults && <li>{words.more(faults.length - mostFaults)}</li>}
      </ul>
    </div>
  );
}

/** The first entries as they would be written down, so that a wrong column shows before it is. */
export function Preview({ looked }: { readonly looked: Extract<Looked, { ok: true }> }) {
  const { entries } = looked;
  const shown = entries.slice(0, mostShown).map(({ id: _id, kind: _kind, ...fields }) => fields);
  if (shown.length === 0) return <p role="status">{words.nothing}</p>;
  const columns = [...new Set(shown.flatMap((fields) => Object.keys(fields)))];
  return (
    <div role="status">
      <p>{words.preview(entries.length)}</p>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a table wider than the page is moved by the keys */}
      <section className="exchange-preview" aria-label={words.preview(entries.length)} tabIndex={0}>
        <table>
          <thead>
            <tr>
              {columns.map((column) => (
                <th key={column} scope="col">
                  {column}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {shown.map((fields, i) => (
              <tr key={looked.lines[i]}>
                {columns.map((column) => (
                  <td key={column}>{told(fields[column])}</td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </section>
    </div>
  );
}

const told = (value: unknown) =>
  value === undefined ? "" : typeof value === "object" ? JSON.stringify(value) : String(value);

/** The ledger names an entry by its place among those sent; whoever has the file looks for its row. */
export function atRow(fault: unknown, lines: readonly number[]): unknown {
  if (!(fault instanceof Trouble)) return fault;
  const named = /^entries\[(\d+)\]\.?(.*)$/.exec(fault.path);
  const line = named ? lines[Number(named[1])] : undefined;
  if (!named || line === undefined) return fault;
  return new Trouble(`${words.fault(line, named[2] ?? "")}: ${fault.message}`, fault.path, fault.status);
}
