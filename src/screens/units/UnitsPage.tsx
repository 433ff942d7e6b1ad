import type { ComponentProps } from "react";
import type { WorkshopHead } from "../common/api.ts";
import { Answer } from "../common/Waiting.tsx";
import { words } from "./messages.ts";
import { UnitList } from "./UnitList.tsx";

type Asked = ComponentProps<typeof Answer<WorkshopHead>>["asked"];

export default function UnitsPage({ asked }: { readonly asked: Asked }) {
  return (
    <Answer asked={asked} what={words.what}>
      {({ units, unitsInAll }) => <UnitList units={units} inAll={unitsInAll ?? units.length} />}
    </Answer>
  );
}
