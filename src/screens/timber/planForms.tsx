import type { CaseView, PieceView } from "../../workshop/timber/views.ts";
import { DeskForm } from "../common/DeskForm.tsx";
import { figureOf, figures } from "./figures.ts";
import { finishChoices } from "./forms.tsx";
import { marksIn, marksTyped } from "./marks.ts";
import { planning as words } from "./messages.ts";
import { momentTyped, typedMoment } from "./moment.ts";
import { stagesIn } from "./stages.ts";

/** Knots, checks, sapwood and figure of a board, as it was looked over. */
export function MarksForm({ view }: { readonly view: PieceView }) {
  const { piece } = view.card;
  return (
    <DeskForm
      form={`timber marks ${piece}`}
      fields={{
        defects: {
          label: words.defects,
          wide: true,
          optional: true,
          first: marksTyped(view.defects),
          hint: words.defectsHint,
        },
        figure: { label: words.figure, first: view.figure === undefined ? "" : String(view.figure), choices: figures },
      }}
      write={words.writeMarks}
      entries={(typed) => {
        const defects = marksIn(typed.text("defects"));
        if (typeof defects === "string") return words.badMark(defects);
        return [{ kind: "board-marks", piece, defects: [...defects], ...figureOf(typed.text("figure")) }];
      }}
      done={() => words.marksDone}
    />
  );
}

/** Where a piece is to go from here, so that what it will hold then is told. */
export function StagesForm({ view, places }: { readonly view: PieceView; readonly places: readonly string[] }) {
  const { piece } = view.card;
  const first = view.ripens.filter(({ from }) => from !== view.ripens[0]?.from || view.ripens.length > 1);
  const example = words.stagesExample(places);
  return (
    <DeskForm
      form={`timber plan ${piece}`}
      fields={{
        begins: { label: words.begins, first: typedMoment(view.now), hint: words.beginsHint },
        stages: {
          label: words.stages,
          wide: true,
          optional: true,
          first: first.map(({ place, from, to }) => `${place} ${Math.round(hoursOf(from, to))}`).join("; "),
          hint: words.stagesHint(example),
        },
      }}
      write={words.writePlan}
      entries={(typed) => {
        const begins = momentTyped(typed.text("begins"), view.now);
        if (begins === undefined) return words.badMoment;
        const stages = stagesIn(typed.text("stages"));
        if (typeof stages === "string") return words.badStage(stages, example);
        return [{ kind: "planned-stages", pieces: [piece], begins, stages: [...stages] }];
      }}
      done={(typed) => (typed.text("stages") === "" ? words.planGivenUp : words.planDone)}
    />
  );
}

const hoursOf = (from: string, to: string) => (Date.parse(to) - Date.parse(from)) / 3_600_000;

/** How a case is to be finished: coats by finish, whose hands, from when. */
export function FinishPlanForm({ view }: { readonly view: CaseView }) {
  return (
    <DeskForm
      form={`timber finish plan ${view.unit}`}
      fields={{
        begins: { label: words.firstCoat, first: typedMoment(view.now), hint: words.beginsHint },
        who: { label: words.who, list: view.people, first: view.finishPlan?.who ?? view.people[0] ?? "" },
        finish: { label: words.finish, first: "oil", choices: finishChoices },
        product: { label: words.product, optional: true },
        coats: { label: words.coats, kind: "number", first: "3" },
        between_h: { label: words.between, kind: "number", unit: "h", optional: true, hint: words.tinHint },
        hardens_h: { label: words.hardens, kind: "number", unit: "h", optional: true, hint: words.tinHint },
        last: { label: words.last, first: "", choices: [{ value: "", label: words.nothing }, ...finishChoices] },
      }}
      write={words.writeFinish}
      entries={(typed) => {
        const begins = momentTyped(typed.text("begins"), view.now);
        if (begins === undefined) return words.badMoment;
        const coats = Math.round(typed.number("coats"));
        if (!(coats >= 1 && coats <= 12)) return words.badCoats;
        const [between_h, hardens_h] = [typed.optional("between_h"), typed.optional("hardens_h")];
        const last = typed.text("last");
        return [
          {
            kind: "finish-plan",
            unit: view.unit,
            begins,
            who: typed.text("who"),
            coats: [
              {
                finish: typed.text("finish") as "oil",
                ...(typed.text("product") !== "" && { product: typed.text("product") }),
                coats,
                ...(between_h !== undefined && { between_h }),
                ...(hardens_h !== undefined && { hardens_h }),
              },
              ...(last === "" ? [] : [{ finish: last as "wax", coats: 1 }]),
            ],
          },
        ];
      }}
      done={() => words.finishDone}
    />
  );
}

/** When the case is to be soaked on the warm amplifier. */
export function SoakForm({ view }: { readonly view: CaseView }) {
  return (
    <DeskForm
      form={`timber soak ${view.unit}`}
      fields={{
        begins: {
          label: words.soakBegins,
          first: typedMoment(view.finishPlan?.hard ?? view.now),
          hint: words.beginsHint,
        },
        place: { label: words.where, list: view.warmPlaces, first: view.warmPlaces[0] ?? "" },
        hours: { label: words.soakHours, kind: "number", unit: "h", first: "36" },
      }}
      write={words.writeSoak}
      entries={(typed) => {
        const begins = momentTyped(typed.text("begins"), view.now);
        if (begins === undefined) return words.badMoment;
        const stages = [{ place: typed.text("place"), hours: typed.number("hours") }];
        return [{ kind: "planned-stages", pieces: [], unit: view.unit, begins, stages }];
      }}
      done={() => words.soakDone}
    />
  );
}
