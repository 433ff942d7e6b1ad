import { sheetNames, words } from "./messages.ts";
import type { SheetOfClaims } from "./sheets.ts";

const width = 156;
const depth = 74;
const lean = 44;
const slant = lean / depth;
const cellTop = 50;
const cellHeight = 16;

const cells: Readonly<Record<string, string>> = { proven: "lying-proof", conceded: "lying-conceded" };

const at = (x: number, y: number) => `${(x + (depth - y) * slant).toFixed(1)} ${y}`;

/** One sheet seen lying: solid when nothing is missing, with a hole cut for each missing proof, a mere outline when all are. */
function LyingSheet({ sheet }: { readonly sheet: SheetOfClaims }) {
  const across = width - lean - 4;
  const step = Math.min(26, (across - 12) / sheet.claims.length);
  const empty = sheet.closed === 0;
  return (
    <svg
      className={`lying${empty ? " lying-empty" : ""}`}
      viewBox={`0 0 ${width} ${depth + 4}`}
      width={width}
      height={depth + 4}
      aria-hidden="true"
    >
      <path className="lying-paper" d={`M${at(2, 2)}L${at(2 + across, 2)}L${at(2 + across, depth)}L${at(2, depth)}z`} />
      {!empty &&
        sheet.claims.map((claim, i) => {
          const left = 9 + i * step;
          const right = left + step - 6;
          const foot = cellTop + cellHeight;
          return (
            <path
              key={claim.claim}
              className={cells[claim.state] ?? "lying-hole"}
              d={`M${at(left, cellTop)}L${at(right, cellTop)}L${at(right, foot)}L${at(left, foot)}z`}
            />
          );
        })}
    </svg>
  );
}

/** The folder's sheets as a pile, each a way to its sheet. */
export function Pile({ sheets }: { readonly sheets: readonly SheetOfClaims[] }) {
  return (
    <nav className="pile" aria-label={words.pile}>
      <ol>
        {sheets.map((sheet, i) => (
          <li key={sheet.sheet} style={{ zIndex: sheets.length - i }}>
            <a href={`#sheet-${sheet.sheet}`}>
              <LyingSheet sheet={sheet} />
              <span className="pile-name">{sheetNames[sheet.sheet]}</span>
              <span className="pile-count">{words.closed(sheet.closed, sheet.claims.length)}</span>
            </a>
          </li>
        ))}
      </ol>
    </nav>
  );
}
