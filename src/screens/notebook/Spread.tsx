import { useState } from "react";
import type { ColumnView, OutlookView, PageView, RowView, SpreadView } from "../../workshop/notebook/views.ts";
import { day } from "../common/calendar.ts";
import { Measured } from "../common/Measured.tsx";
import { StopSign } from "../common/StateSign.tsx";
import { changeWords, differs, rowName, said, signed } from "./figures.ts";
import { groupWords, words } from "./messages.ts";

interface Props {
  readonly spread: SpreadView;
  readonly pages: readonly PageView[];
  readonly outlooks?: readonly OutlookView[] | undefined;
  readonly currency?: string | undefined;
  readonly caption: string;
}

const labelWidth = 250;
const columnWidth = 215;
const mostChanges = 6;

/** Versions as columns of an open notebook: what was changed in ink at the head, what it comes to in pencil below. */
export function Spread(props: Props) {
  const names = props.spread.columns.map(({ name }) => name);
  const [chosen, setChosen] = useState<readonly string[]>();
  const [onlyDiffers, setOnlyDiffers] = useState(false);
  return (
    <Measured first={1100}>
      {(width) => {
        const most = Math.max(1, Math.floor((width - labelWidth) / columnWidth));
        const open = (chosen ?? names).filter((name) => names.includes(name)).slice(-most);
        const toggle = (name: string) => {
          if (most === 1) return setChosen([name]);
          const others = open.filter((one) => one !== name);
          setChosen(open.includes(name) && others.length > 0 ? others : [...others, name].slice(-most));
        };
        return (
          <div className="spread">
            {names.length > 1 && (
              <div className="spread-choice">
                {names.length > most && (
                  <fieldset className="pages">
                    <legend>{words.pagesLegend}</legend>
                    {names.map((name) => (
                      <button key={name} type="button" aria-pressed={open.includes(name)} onClick={() => toggle(name)}>
                        {name}
                      </button>
                    ))}
                  </fieldset>
                )}
                <label className="choice-option">
                  <input
                    type="checkbox"
                    checked={onlyDiffers}
                    onChange={(event) => setOnlyDiffers(event.target.checked)}
                  />
                  <span>{words.onlyDiffers}</span>
                </label>
              </div>
            )}
            <Sheet {...props} open={names.filter((name) => open.includes(name))} onlyDiffers={onlyDiffers} />
          </div>
        );
      }}
    </Measured>
  );
}

function Sheet({
  spread,
  pages,
  outlooks,
  currency,
  caption,
  open,
  onlyDiffers,
}: Props & { readonly open: readonly string[]; readonly onlyDiffers: boolean }) {
  const { columns, groups } = spread;
  const at = open.map((name) => columns.findIndex((column) => column.name === name));
  const shownGroups = groups
    .map(({ group, rows }) => ({
      group,
      rows: rows.filter((row) => at.some((i) => row.cells[i]) && (!onlyDiffers || differs(row))),
    }))
    .filter(({ rows }) => rows.length > 0);
  return (
    <table className="spread-table">
      <caption className="visually-hidden">{caption}</caption>
      <thead>
        <tr>
          <td className="sheet-corner" />
          {at.map((i) => (
            <th key={columns[i]!.name} scope="col">
              <Head column={columns[i]!} page={pages.find(({ version }) => version === columns[i]!.name)} />
            </th>
          ))}
        </tr>
      </thead>
      {shownGroups.length === 0 && onlyDiffers && (
        <tbody>
          <tr>
            <td colSpan={1 + at.length}>{words.noneDiffers}</td>
          </tr>
        </tbody>
      )}
      {shownGroups.map(({ group, rows }) => (
        <Group
          key={group}
          group={group}
          rows={rows}
          at={at}
          columns={columns}
          outlooks={outlooks}
          currency={currency}
        />
      ))}
    </table>
  );
}

function Head({ column, page }: { readonly column: ColumnView; readonly page: PageView | undefined }) {
  const { changes, against } = column;
  return (
    <div className="page-head">
      <span className="page-name">{page ? words.page(column.name) : column.name}</span>
      {page?.revisions.map((revision) => (
        <span key={revision} className="page-stamp">
          {words.stamp(revision)}
        </span>
      ))}
      {page && (
        <span className="page-when">
          {day(page.at)}, {page.by}
          {against !== undefined && `, ${words.from(against)}`}
        </span>
      )}
      {page && page.why !== "" && <span className="page-why">{page.why}</span>}
      {against !== undefined && changes.length > 0 && (
        <span className="page-changes">
          {changes.slice(0, mostChanges).map((change) => {
            const text = changeWords(change);
            return (
              <span key={text} className="page-change">
                {text}
              </span>
            );
          })}
          {changes.length > mostChanges && <span>{words.and(changes.length - mostChanges)}</span>}
        </span>
      )}
      {against !== undefined && changes.length === 0 && <span className="page-when">{words.unchanged}</span>}
      {column.trouble !== undefined && (
        <span className="page-trouble">
          {words.unsolved} {column.trouble}
        </span>
      )}
    </div>
  );
}

interface GroupProps {
  readonly group: string;
  readonly rows: readonly RowView[];
  readonly at: readonly number[];
  readonly columns: readonly ColumnView[];
  readonly outlooks?: readonly OutlookView[] | undefined;
  readonly currency?: string | undefined;
}

const fewRows = 6;

function Group({ group, rows, at, columns, outlooks, currency }: GroupProps) {
  const [isWhole, setWhole] = useState(false);
  const shown = group === "heat" && !isWhole ? rows.slice(0, fewRows) : rows;
  return (
    <tbody>
      <tr className="sheet-group">
        <th scope="rowgroup" colSpan={1 + at.length}>
          {groupWords[group] ?? group}
        </th>
      </tr>
      {shown.map((row) => {
        const { name, what } = rowName(row);
        return (
          <tr key={row.key} className={differs(row) ? "sheet-moved" : undefined}>
            <th scope="row">
              {name} {what !== "" && <span className="sheet-what">{what}</span>}
            </th>
            {at.map((i) => (
              <Cell
                key={columns[i]!.name}
                row={row}
                i={i}
                name={columns[i]!.name}
                outlooks={outlooks}
                currency={currency}
              />
            ))}
          </tr>
        );
      })}
      {shown.length < rows.length && (
        <tr>
          <td colSpan={1 + at.length}>
            <button type="button" className="sheet-more" onClick={() => setWhole(true)}>
              {words.and(rows.length - shown.length)}
            </button>
          </td>
        </tr>
      )}
    </tbody>
  );
}

function Cell({
  row,
  i,
  name,
  outlooks,
  currency,
}: {
  readonly row: RowView;
  readonly i: number;
  readonly name: string;
  readonly outlooks?: readonly OutlookView[] | undefined;
  readonly currency?: string | undefined;
}) {
  const cell = row.cells[i];
  if (!cell) return <td>–</td>;
  const { text, unit } = said(row.quantity, cell.value, currency);
  const seen = outlooks?.find((outlook) => outlook.name === name);
  const window = row.key.startsWith("point ") ? seen?.windows.find(({ point }) => row.of.includes(point)) : undefined;
  const moved = cell.difference === undefined ? undefined : signed(row.quantity, cell.difference, cell.value, currency);
  const share = row.most === undefined ? undefined : Math.abs(cell.value) / row.most;
  return (
    <td>
      <span className="sheet-value">
        {text} {unit}
      </span>
      {moved !== undefined && /[1-9]/.test(moved) && <span className="sheet-difference">{moved}</span>}
      {share !== undefined && !cell.over && (
        <span className="sheet-rated">
          {words.rated(`${said(row.quantity, row.most ?? 0).text} ${unit}`, `${Math.round(100 * share)} %`)}
        </span>
      )}
      {cell.over && (
        <span className="sheet-over">
          <StopSign />
          <span>
            {words.over}, {said(row.quantity, row.most ?? 0).text} {unit}
          </span>
        </span>
      )}
      {window && window.low_V !== window.high_V && (
        <span className="sheet-rated">
          {words.window(said("level_V", window.low_V).text, said("level_V", window.high_V).text, unit)}
        </span>
      )}
    </td>
  );
}
