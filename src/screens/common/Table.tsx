import type { ReactNode } from "react";

type Head = string | { readonly words: ReactNode; readonly figure?: boolean };

export interface Row {
  readonly key: string;
  /** The first names the row. */
  readonly cells: readonly ReactNode[];
}

interface Props {
  readonly head: readonly Head[];
  readonly rows: readonly Row[];
  /** What the table tells, where no heading above it does. */
  readonly caption?: ReactNode;
  readonly className?: string;
}

/** A ruled table of the office pages: heads above, the first cell of a row its name, figures to the right; on a narrow screen it scrolls. */
export function Table({ head, rows, caption, className }: Props) {
  const labelOf = (i: number) => {
    const one = head[i];
    const words = typeof one === "object" ? one.words : one;
    return typeof words === "string" && words !== "" ? words : undefined;
  };
  const isFigure = (i: number) => {
    const one = head[i];
    return typeof one === "object" && one.figure === true;
  };
  return (
    <div className="office-scroll">
      <table className={className}>
        {caption && <caption>{caption}</caption>}
        <thead>
          <tr>
            {head.map((one, i) => {
              const words = typeof one === "string" ? one : one.words;
              const key = `${i} ${typeof words === "string" ? words : ""}`;
              return words === "" ? (
                <td key={key} />
              ) : (
                <th key={key} scope="col" className={isFigure(i) ? "figure" : undefined}>
                  {words}
                </th>
              );
            })}
          </tr>
        </thead>
        <tbody>
          {rows.map(({ key, cells: [name, ...cells] }) => (
            <tr key={key}>
              <th scope="row">{name}</th>
              {cells.map((cell, i) => (
                // biome-ignore lint/suspicious/noArrayIndexKey: a cell has no name but its column
                <td key={i} className={isFigure(i + 1) ? "figure" : undefined} data-label={labelOf(i + 1)}>
                  {cell}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
