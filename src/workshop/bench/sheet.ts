import type { Evidence } from "../../claims/evidence.ts";
import { instrumentStanding, type Shop } from "../../claims/index.ts";
import type { Calculate } from "../calculate.ts";
import { balanceOverVolume } from "./balance.ts";
import { tell } from "./figures.ts";
import { benchQuestion, conditionsInWords } from "./question.ts";
import type { BenchRecordingView, BenchSheetView, RecorderView } from "./views.ts";

type Taken = Evidence<"recording">;

const day_ms = 86_400_000;

/** What the bench found of one unit: every recording that is not a hum hearing's, judged, newest first. */
export async function benchSheet(shop: Shop, unit: string, now: string, calculate: Calculate): Promise<BenchSheetView> {
  const taken = shop.ledger
    .about("recording", unit)
    .filter(({ id, body }) => shop.ledger.supersederOf(id) === undefined && body.purpose !== "hum");
  const recordings = await Promise.all(taken.map((entry) => judged(shop, entry, calculate)));
  const balance = await balanceOverVolume(taken, calculate);
  return {
    unit,
    channels: shop.modelOf(unit)?.channels ?? [],
    recordings: recordings.toReversed(),
    ...(balance && { balance }),
    recorders: [...new Set([...shop.recorderCalibrations.keys(), ...taken.map(({ body }) => body.instrument)])].map(
      (instrument) => recorderView(shop, instrument, now),
    ),
    instruments: [...shop.instruments.keys()],
  };
}

async function judged(shop: Shop, { at, by, body }: Taken, calculate: Calculate): Promise<BenchRecordingView> {
  const calibration = shop.recorderCalibrations.get(body.instrument)?.body.channels;
  const question = benchQuestion(body, calibration);
  const shown = {
    recording: body.recording,
    at,
    by,
    purpose: body.purpose,
    conditions: conditionsInWords(body),
    instrument: body.instrument,
  };
  const nothing = { figures: [], curves: [], notes: [] };
  if (!question) return { ...shown, ...nothing, trouble: "what was played is not on record, so nothing can be judged" };
  try {
    const answer = await calculate(question.calculation, question.input);
    return { ...shown, calculation: question.calculation, ...tell(question.calculation, answer, calibration) };
  } catch (fault) {
    return { ...shown, calculation: question.calculation, ...nothing, trouble: (fault as Error).message };
  }
}

function recorderView(shop: Shop, instrument: string, now: string): RecorderView {
  const calibration = shop.recorderCalibrations.get(instrument);
  const trial = shop.instruments.get(instrument)?.body.trial;
  const standing = instrumentStanding(shop.ledger, instrument);
  return {
    instrument,
    title: shop.instruments.get(instrument)?.body.title ?? instrument,
    ...(calibration && {
      calibratedAt: calibration.at,
      age_days: Math.max(0, Math.floor((Date.parse(now) - Date.parse(calibration.at)) / day_ms)),
      grain_bits: calibration.body.grain_bits,
      rate_Hz: calibration.body.rate_Hz,
    }),
    channels: Object.entries(calibration?.body.channels ?? {}).map(([channel, figures]) => ({
      channel,
      fullScale_Vpk: figures.fullScale_Vpk,
      doubt_Vpk: figures.doubt_Vpk,
      ...(figures.noiseA_Vrms !== undefined && { noiseA_Vrms: figures.noiseA_Vrms }),
      ...(figures.thd_pct !== undefined && { thd_pct: figures.thd_pct }),
    })),
    ...(trial && { trial: { reference: trial.reference, quantity: trial.quantity, true: trial.true } }),
    standing: { state: standing.state, words: standing.words },
  };
}
