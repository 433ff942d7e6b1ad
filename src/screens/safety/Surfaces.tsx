import type { SafetySheetView } from "../../workshop/safety/views.ts";
import { plainNumber } from "../common/number.ts";
import { limits, words } from "./messages.ts";

/** What surfaces may come to by how they are met; folded away, as a guide is. */
export function Surfaces({ touch }: Pick<SafetySheetView, "touch">) {
  const degrees = (value: number | undefined) => (value === undefined ? "" : `${plainNumber(value)} °C`);
  return (
    <section aria-labelledby="surfaces-name">
      <h2 id="surfaces-name">{words.surfaces}</h2>
      <p>{words.surfacesLead}</p>
      <div className="office-scroll">
        <table className="stacks">
          <thead>
            <tr>
              <th scope="col">{words.contact}</th>
              <th scope="col" className="figure">
                {words.metal}
              </th>
              <th scope="col" className="figure">
                {words.glass}
              </th>
              <th scope="col" className="figure">
                {words.wood}
              </th>
              <th scope="col">{limits.seen}</th>
            </tr>
          </thead>
          <tbody>
            {touch.map(({ contact, metal_C, glass_C, wood_C, seen }) => (
              <tr key={`${contact} ${seen}`}>
                <th scope="row">{contact}</th>
                <td className="figure" data-label={words.metal}>
                  {degrees(metal_C)}
                </td>
                <td className="figure" data-label={words.glass}>
                  {degrees(glass_C)}
                </td>
                <td className="figure" data-label={words.wood}>
                  {degrees(wood_C)}
                </td>
                <td className={seen === "memory" ? "safety-memory" : undefined} data-label={limits.seen}>
                  {limits.seenShort[seen]}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </section>
  );
}

/** WHO-ITU safe listening as pages report it; a note for whoever listens. */
const allowance = { level_dBA: 80, hours: 40 };

/** The greatest level of a headphone, and how much of it a week allows: half the time for each 3 dB. */
export function Loudest({ level_dB }: { readonly level_dB: number | undefined }) {
  if (level_dB === undefined) return null;
  const allowed_h = Math.min(168, allowance.hours * 10 ** ((allowance.level_dBA - level_dB) / 10));
  const time =
    allowed_h >= 1
      ? words.hours(plainNumber(Number(allowed_h.toPrecision(2))))
      : allowed_h * 60 >= 1
        ? words.minutes(plainNumber(Number((allowed_h * 60).toPrecision(2))))
        : words.seconds(plainNumber(Number((allowed_h * 3600).toPrecision(2))));
  return (
    <>
      <td className="figure pencil" data-label={words.atMostLevel}>
        {words.level(plainNumber(Math.round(level_dB)))}
      </td>
      <td className="figure pencil" data-label={words.hoursAWeek}>
        {time}
      </td>
    </>
  );
}
