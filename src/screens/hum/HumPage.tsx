import { useQueries, useQuery } from "@tanstack/react-query";
import { useRef, useState } from "react";
import type { HumHearingView, SpectrumView, UnitView } from "../../workshop/views.ts";
import { get } from "../common/api.ts";
import { common } from "../common/messages.ts";
import { Answer, TroubleNote } from "../common/Waiting.tsx";
import { HumHearing } from "./HumHearing.tsx";
import { HumUnderWay, type UnderWay } from "./HumUnderWay.tsx";
import { words } from "./messages.ts";
import { channelsByWeight, recordingsByTelling } from "./order.ts";
import type { Band } from "./zoom.ts";

/** How often a page that waits asks how far it is. */
const lookedAt_ms = 600;

export default function HumPage({ unit }: { readonly unit: string }) {
  const unitPath = `/api/units/${encodeURIComponent(unit)}`;
  const humPath = `${unitPath}/hum`;
  const [chosen, setChannel] = useState<string>();
  const [band, setBand] = useState<Band>();
  const folder = useQuery({ queryKey: [unitPath], queryFn: () => get<UnitView>(unitPath) });
  const asked = useQuery({ queryKey: [humPath], queryFn: () => get<HumHearingView>(humPath) });
  const channel = chosen ?? (asked.data && channelsByWeight(asked.data)[0]) ?? "left";
  const told = asked.data ? recordingsByTelling(asked.data, channel) : [];
  const spectra = useQueries({
    queries: told.map(({ recording }) => {
      const part = band ? `&band=${band.map((hz) => hz.toPrecision(7)).join(",")}` : "";
      const path = `${unitPath}/recordings/${encodeURIComponent(recording)}/spectrum?channel=${encodeURIComponent(channel)}${part}`;
      return { queryKey: [path], queryFn: () => get<SpectrumView>(path) };
    }),
  });
  const failed = spectra.find((one) => one.error);
  // What was drawn stays until what was asked for is there: a key pressed on a picture must not take it away.
  const drawn = useRef(new Map<string, SpectrumView>());
  const shown = told.flatMap(({ recording }, i) => {
    const name = `${recording} ${channel}`;
    const fresh = spectra[i]?.data;
    if (fresh) drawn.current.set(name, fresh);
    return fresh ?? drawn.current.get(name) ?? [];
  });
  const isWaiting = shown.length === 0 && spectra.some((one) => one.isPending);
  const fitted =
    folder.data &&
    Object.fromEntries(Object.entries(folder.data.fitted).map(([position, { valve }]) => [position, valve]));
  const isComputing = asked.data === undefined && !asked.error;
  const { data: progress } = useQuery({
    queryKey: [`${humPath}/under-way`],
    queryFn: () => get<{ underWay?: UnderWay }>(`${humPath}/under-way`),
    enabled: isComputing,
    refetchInterval: isComputing ? lookedAt_ms : false,
  });
  if (isComputing) return <HumUnderWay unit={unit} underWay={progress?.underWay} />;
  return (
    <Answer asked={asked} what={words.what(unit)}>
      {(hearing) => (
        <HumHearing
          key={hearing.unit}
          hearing={hearing}
          fitted={fitted}
          spectra={{
            channel,
            onChannel: setChannel,
            band,
            onBand: setBand,
            spectra: shown,
            instead: failed ? (
              <TroubleNote error={failed.error} again={() => void failed.refetch()} />
            ) : isWaiting ? (
              <p className="quiet small" role="status">
                {common.waiting(words.whatSpectrum)}
              </p>
            ) : undefined,
            isAwaited: !failed && spectra.some((one) => one.isPending),
          }}
        />
      )}
    </Answer>
  );
}
